/** Readings of a run, held to the rules of the shop besides the author's own limits. */
import { describe, expect, it, test } from 'vitest'
import { aProcedure, withHead } from '../../../tests/helpers/a-procedure.ts'
import { carriedRun, DONE, type CarriedRun } from '../../../tests/helpers/a-run.ts'
import { startTalk } from '../../../tests/helpers/spoken-script.ts'
import { RULE_SETS } from '../../../tests/sanitizer/shipped-rule-sets.ts'
import { layOut } from '../procedure/course.ts'
import type { ReadingUnit } from '../procedure/procedure.ts'
import { holdToRules } from '../sanitizer/hold-to-rules.ts'
import { choose } from '../sanitizer/shop-rules.ts'
import type { Command } from './command.ts'

const reading = (step: string, what: string, unit: string, limits: string, more = '') =>
  `{step: ${step}, ON, say: Measure it., hands: 5 s${more}, read: {question: What is it?, reading: ${what}, of: chlorine, unit: ${unit}, ${limits}, source: Ours, if not: [Mix fresh., Add product.]}}`
const WARM = reading('warm', 'temperature', 'C', 'at least: 5')
const PH = reading('sour', 'ph', 'pH', 'at most: 12')
const STRONG = reading('strong', 'strength', 'ppm', 'at least: 20')
const LAST = '{step: last, ON, say: Go on., hands: 5 s}'

/** The steps on one lane, after a step that mixes. */
function course(rules: string, labels: readonly string[], steps: readonly string[], on = 'left') {
  const chosen = choose({ rules, labels }, RULE_SETS)
  if (chosen.kind === 'faulty') throw new Error(chosen.what)
  const lines = ['{step: mix, ON, say: Mix it., hands: 5 s}', ...steps, LAST].map(
    (step) => `      - ${step.replace('ON', `on: ${on}`)}`
  )
  return layOut(holdToRules(aProcedure(withHead(`  - stage: A\n    steps:\n${lines.join('\n')}`)), chosen.shop))
}

const read = (value: number, unit: ReadingUnit): Command => ({
  type: 'answer',
  answer: { kind: 'reading', value, unit }
})
const degrees = (value: number) => read(value, 'Cel')
const ph = (value: number) => read(value, '[pH]')
const ppm = (value: number) => read(value, '[ppm]')
const put: Command = { type: 'correct', lane: 'left', action: 'Mix fresh.' }

const isStopped = (run: CarriedRun, lane = 'left') => run.run().lanes[lane]?.stop?.kind === 'bad-answer'
const nextOn = (run: CarriedRun, lane = 'left') =>
  run.course.lanes.find(({ id }) => id === lane)?.steps[run.run().lanes[lane]?.position ?? 99]?.step.id ?? 'over'

describe('one reading', () => {
  // FDA Food Code 4-501.114(A): never below 25 mg/L. 40 CFR 180.940(a), from memory: 200 ppm. Label (invented): 100.
  test.each([
    ['us-food-code', [], 24, true],
    ['us-food-code', [], 25, false],
    ['us-food-code', [], 200, false],
    ['us-food-code', [], 201, true],
    ['us-food-code', ['our-sanitizer'], 99, true],
    ['us-food-code', ['our-sanitizer'], 100, false],
    // California HSC 114099.6: 100 ppm.
    ['california', [], 99, true],
    ['california', [], 100, false]
  ] as const)('by %s and %j, %i ppm stops the lane: %s', (rules, labels, value, stops) => {
    expect(isStopped(carriedRun(course(rules, labels, [STRONG])).do(DONE, ppm(value)))).toBe(stops)
  })

  it('within the rules is still held to the author', () => {
    const strict = reading('strong', 'strength', 'ppm', 'at least: 150')
    expect(isStopped(carriedRun(course('us-food-code', [], [strict])).do(DONE, ppm(149)))).toBe(true)
  })
})

describe('readings of one batch', () => {
  // FDA Food Code 4-501.114(A): 50 mg/L at pH 8 or less from 24 C, at pH 10 or less from 38 C; 100 mg/L from 13 C.
  test.each([
    [24, 8, 50, false],
    [23, 8, 50, true],
    [24, 8.1, 50, true],
    [38, 10, 50, false],
    [37, 10, 50, true],
    [13, 10, 100, false],
    [12, 10, 100, true],
    [13, 10, 99, true],
    [40, 10.1, 200, true]
  ])('%i C, pH %d and %i ppm stop the lane: %s', (c, acidity, strength, stops) => {
    const run = carriedRun(course('us-food-code', [], [WARM, PH, STRONG])).do(DONE)
    run.do(degrees(c), ph(acidity), ppm(strength))
    expect(isStopped(run)).toBe(stops)
    if (!stops) expect(nextOn(run)).toBe('last')
  })

  it('stop as soon as nothing that is still to come could save them', () => {
    const run = carriedRun(course('us-food-code', [], [WARM, PH, STRONG])).do(DONE)
    expect(isStopped(run.do(degrees(24), ph(10.5)))).toBe(true)
  })

  it('are all taken anew after a correction', () => {
    const run = carriedRun(course('us-food-code', [], [WARM, PH, STRONG])).do(DONE, degrees(13), ph(7), ppm(60))
    expect(isStopped(run)).toBe(true)
    expect(nextOn(run.do(put))).toBe('warm')
    run.do(degrees(30), ph(7), ppm(60))
    expect(nextOn(run)).toBe('last')
    const kept = run.events().filter(({ type }) => type === 'check-answered' || type === 'corrected')
    expect(kept).toHaveLength(7)
  })

  it('do not lend a value to another batch', () => {
    const second = reading('second', 'strength', 'ppm', 'at least: 20')
    const again = '{step: mix-two, ON, say: Mix it., hands: 5 s}'
    const run = carriedRun(course('us-food-code', [], [WARM, PH, STRONG, again, second]))
    run.do(DONE, degrees(13), ph(8), ppm(100), DONE, ppm(50))
    expect(nextOn(run)).toBe('last')
  })

  it('go no further back than to where a tool was taken', () => {
    const held = reading('warm', 'temperature', 'C', 'at least: 5', ', take: [pail], free: [pail]')
    const chosen = choose({ rules: 'us-food-code', labels: [] }, RULE_SETS)
    if (chosen.kind === 'faulty') throw new Error(chosen.what)
    const steps = [held, STRONG, LAST].map((step) => `      - ${step.replace('ON', 'on: left')}`).join('\n')
    const text = withHead(`  - stage: A\n    steps:\n${steps}`, 'tools: [{id: pail, name: Pail}]')
    const run = carriedRun(layOut(holdToRules(aProcedure(text), chosen.shop))).do(degrees(13), ppm(10))
    expect(nextOn(run.do(put))).toBe('strong')
  })

  it('on the whole machine go back across whole-machine steps when nobody worked in between', () => {
    const machine = (steps: readonly string[]) => course('us-food-code', [], steps, 'whole machine')
    const correct: Command = { type: 'correct', lane: 'machine', action: 'Mix fresh.' }
    const run = carriedRun(machine([WARM, STRONG])).do(DONE, degrees(13), ppm(10), correct)
    expect(nextOn(run, 'machine')).toBe('warm')
    expect(nextOn(run.do(degrees(30), ppm(60), DONE), 'machine')).toBe('over')
    expect(run.run().status).toBe('finished')
    const side = '{step: side, on: left, say: Go on., hands: 5 s}'
    const apart = carriedRun(machine([WARM, side, STRONG])).do(DONE, degrees(13), DONE, ppm(10), correct)
    expect(nextOn(apart, 'machine')).toBe('strong')
  })
})

describe('what the operator hears', () => {
  const said = (steps: readonly string[], ...words: readonly string[]) => {
    const talk = startTalk(course('us-food-code', ['our-sanitizer'], steps))
    talk.open()
    for (const each of ['all done', ...words]) {
      talk.hearWords(each)
      if (each !== 'all done') talk.hearWords('yes')
    }
    return talk
  }

  it('is which rule a reading breaks, by how much it misses, and what may be done', () => {
    const lines = said([WARM, STRONG], 'twenty four degrees', 'ninety p p m').transcript().slice(-3)
    expect(lines).toEqual([
      'Sidecall: Left. Out of limits: 90 ppm.',
      'Sidecall: 90 ppm. Example Sanitizer 8.25 % (invented product) asks for at least 100 ppm.',
      'Sidecall: Mix fresh. Or: Add product. Then tell me: put right.'
    ])
  })

  it('is the strictest rule, when every rule could be looked at and is met', () => {
    const talk = said([WARM, PH, STRONG], 'twenty four degrees', 'seven point five', 'one twenty')
    expect(talk.transcript()).toContain('Sidecall: Left. Good. The strictest limit is from: US model Food Code.')
  })

  it('is nothing of the kind while something was not measured', () => {
    const lines = said([WARM, STRONG], 'twenty four degrees', 'one twenty').transcript()
    expect(lines.filter((line) => line.includes('strictest'))).toEqual([])
    expect(lines.at(-1)).toBe('Sidecall: Left. Go on.')
  })

  it('is what was not measured, once the batch is over', () => {
    const open = 'Sidecall: Left. Within the limits written here. Not judged by US model Food Code: pH not measured.'
    const talk = said([WARM, STRONG], 'twenty four degrees')
    expect(talk.transcript()).not.toContain(open)
    talk.hearWords('one twenty')
    talk.hearWords('yes')
    expect(talk.transcript()).toContain(open)
  })
})
