/** What the rules of a shop do to a procedure when it is published. */
import { describe, expect, it, test } from 'vitest'
import { RULE_SETS } from '../../../tests/sanitizer/shipped-rule-sets.ts'
import { withHead } from '../../../tests/helpers/a-procedure.ts'
import { readProcedure } from '../procedure/read-procedure.ts'
import { choose, type ShopRules } from './shop-rules.ts'

function shop(rules: string, ...labels: readonly string[]): ShopRules {
  const chosen = choose({ rules, labels }, RULE_SETS)
  if (chosen.kind === 'faulty') throw new Error(chosen.what)
  return chosen.shop
}

const yaml = (step: string) => withHead(`  - {stage: A, steps: [{step: a, say: Go., hands: 5 s, ${step}}]}`)
const read = (limits: string, of = 'of: chlorine, ') =>
  yaml(`read: {question: What?, reading: strength, ${of}unit: ppm, ${limits}, source: Ours, if not: [Mix.]}`)
const wait = (of: string, least: string, most = '') =>
  yaml(`wait: {for: contact, ${of}at least: ${least}${most}, source: Ours}`)

function stepIn(text: string, rules: ShopRules) {
  const found = readProcedure(text, rules)
  if (found.kind === 'faulty') throw new Error(JSON.stringify(found.problems))
  return found.procedure.stages[0]?.steps[0]
}
function heldTo(text: string, rules: ShopRules) {
  const check = stepIn(text, rules)?.check
  return check?.kind === 'reading' ? check.heldTo : undefined
}

describe('a reading', () => {
  it('is held to the rule set and the label, each with its source', () => {
    const held = heldTo(read('at least: 50'), shop('us-food-code', 'our-sanitizer')) ?? []
    expect(held.map(({ title }) => title)).toEqual([
      'US model Food Code',
      'US model Food Code',
      'Example Sanitizer 8.25 % (invented product)'
    ])
    expect(held[0]?.source).toMatch(/^FDA Food Code 4-501\.114\(A\)/)
    expect(held[1]?.rows).toEqual([[[{ unit: '[ppm]', min: null, max: 200 }]]])
    expect(held[2]?.rows).toEqual([[[{ unit: '[ppm]', min: 100, max: 200 }]]])
  })

  it('is left to the author where it names no subject or the shop has chosen nothing', () => {
    expect(heldTo(read('at least: 50', ''), shop('us-food-code'))).toBeUndefined()
    expect(heldTo(read('at least: 50'), { ruleSets: [], labels: [] })).toBeUndefined()
  })

  test('that no rule could ever allow is refused where it stands', () => {
    // 40 CFR 180.940(a): 200 ppm, from memory.
    expect(readProcedure(read('at least: 300'), shop('us-food-code'))).toMatchObject({
      kind: 'faulty',
      problems: [
        {
          line: 11,
          column: expect.any(Number),
          what: expect.stringMatching(/^No reading that this step calls good is allowed by US model Food Code: 40 CFR/),
          mend: 'Change the limits of the step, or choose the rules and the label that hold here.'
        }
      ]
    })
    expect(heldTo(read('at least: 200'), shop('us-food-code'))).toHaveLength(2)
  })

  test('of a temperature may be rounded as the codes round theirs', () => {
    // FDA Food Code 4-501.19: 43 C (110 F, which is 43.3 C).
    const degrees = (limits: string) =>
      yaml(
        `read: {question: What?, reading: temperature, of: wash water, unit: F, ${limits}, source: Ours, if not: [Mix.]}`
      )
    expect(heldTo(degrees('at most: 109.5'), shop('us-food-code'))).toHaveLength(1)
    expect(readProcedure(degrees('at most: 100'), shop('us-food-code')).kind).toBe('faulty')
  })
})

describe('a contact time', () => {
  const of = (subject: string) => `of: ${subject}, `

  test.each([
    // FDA Food Code 4-703.11(C)(1): 10 s whatever was measured. Label of an invented product: 2 min.
    ['chlorine', '5 s', shop('us-food-code'), 10],
    ['chlorine', '5 s', shop('us-food-code', 'our-sanitizer'), 120],
    ['chlorine', '5 min', shop('us-food-code', 'our-sanitizer'), 300],
    // California HSC 114099.6: 30 s for chlorine, 60 s for quaternary ammonium.
    ['chlorine', '5 s', shop('california'), 30],
    ['quaternary ammonium', '10 s', shop('california'), 60],
    // FDA Food Code 4-703.11(C)(3) and (A): 30 s.
    ['iodine', '10 s', shop('us-food-code'), 30],
    ['hot water', '10 s', shop('us-food-code'), 30]
  ] as const)('of %s written as %s', (subject, written, rules, seconds) => {
    expect(stepIn(wait(of(subject), written), rules)?.wait?.minSeconds).toBe(seconds)
  })

  it('that is lengthened says who asks for it; one that is long enough keeps its own source', () => {
    const rules = shop('us-food-code', 'our-sanitizer')
    expect(stepIn(wait(of('chlorine'), '5 s'), rules)?.wait?.source).toEqual({
      en: 'Example Sanitizer 8.25 % (invented product): Label of Example Sanitizer (invented), part Food-contact surfaces (invented; read in its own text)'
    })
    expect(stepIn(wait(of('chlorine'), '3 min'), rules)?.wait?.source).toEqual({ en: 'Ours' })
  })

  it('is left alone where it names no subject', () => {
    expect(stepIn(wait('', '5 s'), shop('california'))?.wait?.minSeconds).toBe(5)
  })

  test('above the longest time of its step is refused', () => {
    expect(
      readProcedure(wait(of('chlorine'), '5 s', ', at most: 1 min'), shop('us-food-code', 'our-sanitizer'))
    ).toMatchObject({
      kind: 'faulty',
      problems: [
        {
          line: 11,
          column: expect.any(Number),
          what: 'The rules of this shop ask for 120 s, which is more than the longest time of step "a".',
          mend: 'Make "at most" longer, or choose a product that is quicker.'
        }
      ]
    })
  })
})

describe('a choice', () => {
  test.each([
    [{ rules: 'nowhere', labels: [] }, 'rules', /^"nowhere" is no rule set/],
    [{ rules: 'our-sanitizer', labels: [] }, 'rules', /^"our-sanitizer" is no rule set/],
    [{ rules: 'us-food-code', labels: ['california'] }, 'labels', /^"california" is no label/],
    [{ rules: 'us-food-code', labels: ['our-quat', 'our-quat'] }, 'labels', /are for the same kind of product\.$/]
  ])('%j is refused', (choice, key, what) => {
    expect(choose(choice, RULE_SETS)).toMatchObject({ kind: 'faulty', key, what: expect.stringMatching(what) })
  })

  it('is refused when the rules that fill its gaps are missing', () => {
    const shelf = RULE_SETS.filter(({ id }) => id !== 'us-food-code')
    expect(choose({ rules: 'california', labels: [] }, shelf)).toMatchObject({
      kind: 'faulty',
      what: '"us-food-code" is no rule set of a jurisdiction that can be read here.'
    })
  })
})
