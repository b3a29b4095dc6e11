/** Times and limits of the shipped procedures against published figures. */
import { describe, expect, it } from 'vitest'
import type { Step } from '../../src/core/procedure/procedure.ts'
import { SHIPPED, shipped, stepsOf } from './shipped-files.ts'

const everyStep = SHIPPED.flatMap(({ procedure }) => stepsOf(procedure))
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
    const inMachine = waits.filter(({ kind, step }) => kind === 'contact' && step.on.kind === 'sides' && /^Turn/.test(say(step)))
    expect(inMachine).toHaveLength(2)
    expect(inMachine.every(({ minSeconds, maxSeconds, late }) => minSeconds >= 300 && maxSeconds !== null && late !== null)).toBe(true)
  })

  it('keep sanitizer on loose parts longer than code and labels ask', () => {
    // FDA Food Code 4-703.11(C)(1): 10 s. Usual food-contact label of a hypochlorite: 2 minutes, from memory.
    const sink = waits.filter(({ kind, step }) => kind === 'contact' && /^Lay/.test(say(step)))
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
    expect(strengths.map(({ check }) => [check.min, check.max, check.unit])).toEqual(strengths.map(() => [100, 200, '[ppm]']))
  })

  it('read each sanitizer batch before it is used', () => {
    for (const { procedure } of SHIPPED) {
      const steps = stepsOf(procedure)
      steps.forEach((step, index) => {
        if (!/^Mix .*sanitizer/.test(say(step))) return
        const lane = step.on.kind
        const following = steps.slice(index + 1).find(({ on }) => on.kind === lane)
        expect(following?.check).toMatchObject({ kind: 'reading', reading: 'strength' })
      })
    }
  })

  it('wash at 43 C or warmer', () => {
    // FDA Food Code 4-501.19, seen as Navy P-5010-1 4-2.13: 43 C (110 F). 7 Pa. Code 39.55: 43 to 49 C.
    const wash = readings.filter(({ id, check }) => check.reading === 'temperature' && /wash|sink/.test(id))
    expect(wash).toHaveLength(3)
    expect(wash.every(({ check }) => check.min === 43 && check.max === 49)).toBe(true)
  })

  it('keep chlorine of 100 ppm at 13 C or warmer', () => {
    // FDA Food Code 4-501.114(A), as adopted in WAC 246-215-04565: 100 mg/L, 13 C (55 F).
    const sanitizer = readings.filter(({ id, check }) => check.reading === 'temperature' && /^(first|second)/.test(id))
    expect(sanitizer.map(({ check }) => check.min)).toEqual([13, 13])
  })

  it('hold mix at 5 C or colder', () => {
    // FDA Food Code 3-501.16(A)(2): 5 C (41 F).
    const mix = readings.filter(({ id }) => /mix|hopper/.test(id))
    expect(mix.map(({ check }) => [check.min, check.max, check.unit])).toEqual([[null, 5, 'Cel'], [null, 5, 'Cel']])
  })

  it('name their source and what comes first', () => {
    expect(readings.filter(({ check }) => !/come(s)? first\.$/.test(check.source['en'] ?? ''))).toEqual([])
  })
})

describe('rinsing', () => {
  it('never follows sanitizer on the same lane before a new wash', () => {
    // FDA Food Code 4-904.14: no rinse between chemical sanitizing and drying or use.
    for (const { procedure } of SHIPPED) {
      const lanes = [...procedure.sides.map(({ id }) => id), 'bench']
      for (const lane of lanes) {
        let sanitized = false
        for (const step of stepsOf(procedure)) {
          const here = step.on.kind === 'sides' ? step.on.sides.includes(lane) : step.on.kind === lane
          if (!here) continue
          if (sanitized) expect(say(step), step.id).not.toMatch(/^Rinse|water/)
          if (step.wait?.kind === 'contact') sanitized = true
          if (step.wait?.kind === 'soak' || /wash sink/.test(say(step))) sanitized = false
        }
        if (lane !== 'bench' || procedure.id === 'twin-freezer-closing') expect(stepsOf(procedure).some(({ wait }) => wait?.kind === 'contact')).toBe(true)
      }
    }
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
