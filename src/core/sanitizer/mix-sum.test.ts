import { describe, expect, it, test } from 'vitest'
import { RULE_SETS } from '../../../tests/sanitizer/shipped-rule-sets.ts'
import { sanitizerWordsEn } from './words.en.ts'
import { mixSum, type MixFields } from './mix-sum.ts'

const FIELDS: MixFields = {
  label: '',
  agent: 'chlorine',
  form: 'liquid',
  percent: '5.25',
  convention: 'unstated',
  density: '',
  target: '100',
  volume: '3.785411784 L',
  measure: '',
  rules: 'us-food-code'
}
const sum = (changed: Partial<MixFields> = {}, system: 'us' | 'metric' = 'us') =>
  mixSum({ ...FIELDS, ...changed }, RULE_SETS, system, sanitizerWordsEn)
const linesOf = (changed: Partial<MixFields> = {}) => {
  const worked = sum(changed)
  return worked.kind === 'answer' ? worked.lines : worked.asks
}

describe('a batch', () => {
  test.each([
    // Computed with C1 x V1 = C2 x V2 and percent times 10,000: 5.25 % to 100 ppm in a US gallon, 7.21 mL.
    [{}, /^Put 7\.21 mL in/],
    // Logan City Council: 12.5 mL of 4 % in 100 L makes 5 mg/L.
    [{ percent: '4', target: '5', volume: '100 L' }, /^Put 12\.5 mL in/],
    // Computed: 10 % quaternary ammonium to 200 ppm in a US gallon, 7.57 mL.
    [{ agent: 'quat', percent: '10', convention: 'trade', target: '200', volume: '1 gal-us' }, /^Put 7\.571 mL in/],
    // NSW Health ready reckoner: 7.69 g of 65 % for 5 mg/L in 1,000 L, published as 8 g.
    [{ form: 'powder', percent: '65', target: '5', volume: '1000 L', measure: 'g' }, /^Put 8 g in/],
    [{ form: 'tablet', percent: '500', target: '100', volume: '10 L', measure: 'tablet' }, /^Put 2 tablets in/]
  ] as const)('%j', (changed, first) => {
    const lines = linesOf(changed)
    expect(Array.isArray(lines) ? lines[0] : lines).toMatch(first)
    expect(lines).toContain('Read a strip before you use it. Wear gloves and eye protection.')
    expect(lines).toContain('The product label and local code come first.')
  })

  it('takes gallons and cups of the shop’s own system', () => {
    expect(linesOf({ volume: '1 gal' })).toEqual(linesOf({ volume: '1 gal-us' }))
    expect(sum({ volume: '1 gal' }, 'metric')).toMatchObject({
      kind: 'incomplete',
      asks: { volume: expect.stringMatching(/^Which gal/) }
    })
  })

  it('goes by the label on the shelf, whatever is typed for another product', () => {
    const lines = linesOf({ label: 'our-sanitizer', percent: '99', agent: 'iodine', target: '100', volume: '7.6 L' })
    expect(lines).toEqual(linesOf({ percent: '8.25', convention: 'weight', density: '1.1', volume: '7.6 L' }))
  })
})

describe('a refusal', () => {
  test.each([
    // 40 CFR 180.940(a): 200 ppm, from memory; the label (invented) says the same.
    [{ target: '201' }, /^Refused: more than 200 ppm may not stay/],
    [{ label: 'our-sanitizer', target: '200.1' }, /^Refused: more than 200 ppm/],
    // Australia and New Zealand leave strengths to the label: the usual cap holds.
    [{ rules: 'australia-new-zealand', target: '201' }, /^Refused: more than 200 ppm/],
    [{ percent: '10', convention: 'weight' }, /^Refused: a percent by weight needs the density/],
    [{ measure: 'gal-us' }, /^Refused: one step of US gal/],
    [{ percent: '0.01', target: '150' }, /^Refused: the product itself has only 100 ppm/]
  ] as const)('%j', (changed, reason) => {
    const worked = sum(changed)
    expect(worked).toMatchObject({ kind: 'answer', tone: 'out' })
    expect(worked.kind === 'answer' ? worked.lines[0] : '').toMatch(reason)
  })
})

describe('what was typed', () => {
  test.each([
    ['percent', '5,25', /^Do you mean 5\.25\?/],
    ['percent', '0', /^0 cannot be\. It must be more than 0\./],
    ['percent', '101', /^101 cannot be\..*at most 100\.$/],
    ['percent', '-5', /^-5 cannot be\./],
    ['percent', 'much', /^There is no number in it\.$/],
    ['density', '12', /^12 cannot be\..*at most 2\.$/],
    ['target', '1,000', /^Do you mean 1 or 1000\?/],
    ['volume', '7.6', /^7\.6 of what\? Add a unit/],
    ['volume', '7.6 kg', /^That is no volume/],
    ['volume', '-2 L', /^-2 is below zero\.$/],
    ['volume', '0 L', /^0 cannot be\./],
    ['volume', '2 buckets', /^"buckets" is no unit known here\.$/]
  ] as const)('%s of "%s" is asked about, and nothing is worked out', (field, typed, question) => {
    const worked = sum({ [field]: typed })
    expect(worked).toEqual({ kind: 'incomplete', asks: { [field]: expect.stringMatching(question) } })
  })

  it('is waited for without a question while a field is empty', () => {
    for (const field of ['percent', 'target', 'volume'] as const)
      expect(sum({ [field]: ' ' })).toEqual({ kind: 'incomplete', asks: {} })
  })
})
