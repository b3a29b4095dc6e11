/** Times and limits of the shipped procedures against published figures. */
import { describe, expect, it } from 'vitest'
import { layOut } from '../../src/core/procedure/course.ts'
import type { Step } from '../../src/core/procedure/procedure.ts'
import { FREEZER, shipped, stepsOf } from './shipped-files.ts'

const everyStep = FREEZER.flatMap(({ procedure }) => stepsOf(procedure))
const waits = everyStep.flatMap((step) => (step.wait ? [{ step, ...step.wait }] : []))
const readings = everyStep.flatMap(({ id, check }) => (check?.kind === 'reading' ? [{ id, check }] : []))
const say = (step: Step) => step.say['en'] ?? ''

describe('waits', () => {
  it('turn cleaner in the machine for five minutes', () => {
    // Common practice, no source.
    const cleaner = waits.filter(({ kind }) => kind === 'agitation')
    expect(cleaner).toHaveLength(1)
    expect(cleaner.every(({ minSeconds }) => minSeconds >= 300)).toBe(true)
  })

  it('turn sanitizer in the built machine for five minutes, twice', () => {
    // Five minutes: common practice, no source. FDA Food Code 4-703.11(C) asks for 7 to 30 s.
    const inMachine = waits.filter(
      ({ kind, step }) => kind === 'contact' && step.on.kind === 'sides' && say(step).startsWith('Turn')
    )
    expect(inMachine).toHaveLength(2)
    expect(
      inMachine.every(({ minSeconds, maxSeconds, late }) => minSeconds >= 300 && maxSeconds !== null && late !== null)
    ).toBe(true)
  })

  it('keep sanitizer on loose parts longer than code and labels ask', () => {
    // FDA Food Code 4-703.11(C)(1): 10 s. Usual food-contact label of a hypochlorite: 2 minutes, from memory.
    const sink = waits.filter(({ kind, step }) => kind === 'contact' && say(step).startsWith('Lay'))
    expect(sink).toHaveLength(3)
    expect(sink.every(({ minSeconds }) => minSeconds >= 120)).toBe(true)
  })

  it('soak loose parts for five minutes', () => {
    // Common practice, no source.
    expect(waits.filter(({ kind }) => kind === 'soak').map(({ minSeconds }) => minSeconds)).toEqual([300, 300])
  })

  it('name their source and put label or manual first', () => {
    expect(waits.length).toBeGreaterThanOrEqual(9)
    expect(waits.filter(({ source }) => !/(label|manual) comes first\.$/.test(source['en'] ?? ''))).toEqual([])
  })
})

describe('readings', () => {
  it('hold chlorine between 100 and 200 ppm', () => {
    // 100 ppm: common practice, no source. 200 ppm without a rinse: 40 CFR 180.940, from memory.
    const strengths = readings.filter(({ check }) => check.reading === 'strength')
    expect(strengths).toHaveLength(4)
    expect(strengths.map(({ check }) => [check.min, check.max, check.unit])).toEqual(
      strengths.map(() => [100, 200, '[ppm]'])
    )
  })

  it.each(FREEZER)('read each sanitizer batch before it is used: $name', ({ procedure }) => {
    const lanes = layOut(procedure).lanes.map((lane) => lane.steps.map(({ step }) => step))
    const following = lanes.flatMap((steps) =>
      steps.filter((_, index) => /^Mix .*sanitizer/.test(steps[index - 1]?.say['en'] ?? ''))
    )
    expect(following.length).toBeGreaterThan(0)
    expect(following.map(({ check }) => (check?.kind === 'reading' ? check.reading : null))).toEqual(
      following.map(() => 'strength')
    )
  })

  it('wash at 43 C or warmer', () => {
    // FDA Food Code 4-501.19, seen as Navy P-5010-1 4-2.13: 43 C (110 F). 7 Pa. Code 39.55: 43 to 49 C.
    const wash = readings.filter(({ check }) => check.reading === 'temperature' && check.of === 'wash-water')
    expect(wash).toHaveLength(3)
    expect(wash.every(({ check }) => check.min === 43 && check.max === 49)).toBe(true)
  })

  it('keep chlorine of 100 ppm at 13 C or warmer', () => {
    // FDA Food Code 4-501.114(A), as adopted in WAC 246-215-04565: 100 mg/L, 13 C (55 F).
    const sanitizer = readings.filter(({ check }) => check.reading === 'temperature' && check.of === 'chlorine')
    expect(sanitizer.map(({ check }) => check.min)).toEqual([13, 13, 13, 13])
  })

  it('hold mix at 5 C or colder', () => {
    // FDA Food Code 3-501.16(A)(2): 5 C (41 F).
    const mix = readings.filter(({ id }) => /mix|hopper/.test(id))
    expect(mix.map(({ check }) => [check.min, check.max, check.unit])).toEqual([
      [null, 5, 'Cel'],
      [null, 5, 'Cel']
    ])
  })

  it('name their source and what comes first', () => {
    expect(readings.filter(({ check }) => !/come(s)? first\.$/.test(check.source['en'] ?? ''))).toEqual([])
  })
})

describe('rinsing', () => {
  it.each(FREEZER)('never follows sanitizer on the same lane before a new wash: $name', ({ procedure }) => {
    // FDA Food Code 4-904.14: no rinse between chemical sanitizing and drying or use.
    const lanes = layOut(procedure).lanes.map((lane) => lane.steps.map(({ step }) => step))
    const afterSanitizer = lanes.flatMap((steps) =>
      steps.filter((_, index) => {
        const before = steps.slice(0, index)
        const sanitized = before.findLastIndex(({ wait }) => wait?.kind === 'contact')
        return sanitized > before.findLastIndex((step) => step.wait?.kind === 'soak' || say(step).includes('wash sink'))
      })
    )
    expect(afterSanitizer.length).toBeGreaterThan(5)
    expect(afterSanitizer.filter((step) => /^Rinse|water/.test(say(step))).map(({ id }) => id)).toEqual([])
  })

  it('uses cool water before warm, and stays at the warm rinse until it runs clear', () => {
    // Common practice, no source: hot water sets milk protein. 7 Pa. Code 39.55 begins with a lukewarm rinse.
    const rinses = stepsOf(shipped('twin-freezer-closing')).filter((step) => /^Pour .*water/.test(say(step)))
    expect(rinses.map((step) => /cool|warm/.exec(say(step))?.[0])).toEqual(['cool', 'warm', 'warm'])
    const repeats = stepsOf(shipped('twin-freezer-closing')).filter(({ repeat }) => repeat !== null)
    expect(repeats.map(({ repeat }) => repeat?.from)).toEqual(['warm-pour', 'clear-pour'])
    expect(repeats[0]?.repeat?.atLeast).toBe(2)
  })
})
