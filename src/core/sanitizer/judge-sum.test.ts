import { describe, expect, it, test } from 'vitest'
import { RULE_SETS } from '../../../tests/sanitizer/shipped-rule-sets.ts'
import { sanitizerWordsEn } from './words.en.ts'
import { judgeSum, type JudgeFields } from './judge-sum.ts'

const FIELDS: JudgeFields = {
  subject: 'chlorine',
  rules: 'us-food-code',
  label: '',
  ppm: '100',
  temperature: '24 C',
  ph: '7',
  hardness: '',
  seconds: '10',
  clear: ''
}
const sum = (changed: Partial<JudgeFields> = {}) => judgeSum({ ...FIELDS, ...changed }, RULE_SETS, sanitizerWordsEn)

describe('a reading', () => {
  test.each([
    // FDA Food Code 4-501.114(A) and 4-703.11(C)(1) and (2), as adopted in Wisconsin.
    [{}, 'good', /FDA Food Code/],
    [{ ppm: '50', temperature: '75 F', ph: '8' }, 'good', /FDA Food Code/],
    [{ ppm: '50', temperature: '74 F', ph: '8' }, 'out', /4-501\.114/],
    [{ ppm: '201' }, 'out', /180\.940/],
    [{ seconds: '6' }, 'out', /4-703\.11/],
    [{ ph: '' }, 'unknown', /4-501\.114/],
    // Label (invented): 2 minutes.
    [{ label: 'our-sanitizer' }, 'out', /Example Sanitizer/],
    [{ label: 'our-sanitizer', seconds: '120' }, 'good', /./],
    // California HSC 114099.6: 30 s.
    [{ rules: 'california', seconds: '29' }, 'out', /114099\.6/],
    // FDA Food Code 3-501.16(A)(2): 5 C (41 F).
    [{ subject: 'cold-holding', ppm: '', ph: '', seconds: '', temperature: '41 F' }, 'good', /3-501\.16/],
    [{ subject: 'cold-holding', ppm: '', ph: '', seconds: '', temperature: '5.1 C' }, 'out', /3-501\.16/],
    [{ subject: 'rinse', ppm: '', ph: '', seconds: '', temperature: '', clear: 'no' }, 'out', /4-603\.16/]
  ] as const)('%j is %s', (changed, tone, source) => {
    const judged = sum(changed)
    expect(judged).toMatchObject({ kind: 'answer', tone })
    const lines = judged.kind === 'answer' ? judged.lines : []
    expect(lines.find((line) => line.startsWith('Source: '))).toMatch(source)
    expect(lines.at(-1)).toBe('The product label and local code come first.')
  })
})

describe('what was typed', () => {
  test.each([
    ['ppm', '1,5', /^Do you mean 1\.5\?/],
    ['ppm', '-1', /cannot be/],
    ['ppm', 'strong', /no number/],
    ['temperature', '24', /^Write C or F behind it/],
    ['temperature', '24 ppm', /^Write C or F behind it/],
    ['temperature', '101 C', /cannot be/],
    ['temperature', '24 K', /no unit known/],
    ['ph', '14.1', /cannot be/],
    ['seconds', '100000', /cannot be/]
  ] as const)('%s of "%s" is asked about, and nothing is judged', (field, typed, question) => {
    expect(sum({ [field]: typed })).toEqual({ kind: 'incomplete', asks: { [field]: expect.stringMatching(question) } })
  })

  it('is waited for while every field is empty', () => {
    expect(sum({ ppm: '', temperature: '', ph: '', seconds: '' })).toEqual({ kind: 'incomplete', asks: {} })
  })
})
