import { describe, expect, it, test } from 'vitest'
import { MEASURES, type MeasureId } from './measure.ts'
import { parseQuantity } from './parse-quantity.ts'
import { sanitizerWordsEn as words } from './words.en.ts'

describe('doses', () => {
  test.each([
    ['tsp-us', 1.75, '1 3/4 US tsp'],
    ['tsp-us', 0.25, '1/4 US tsp'],
    ['cup-imperial', 2, '2 imperial cup'],
    ['tbsp-australian', 0.5, '1/2 Australian tbsp'],
    ['floz-us', 1.5, '1 1/2 US fl oz'],
    ['ml', 10, '10 mL'],
    ['syringe', 9.3, '9.3 mL by syringe'],
    ['tablet', 2, '2 tablets']
  ] as const)('%s %s', (measure, count, expected) => {
    expect(words.dose(measure, count)).toBe(expected)
  })

  it('have a name for every measure, and no two the same', () => {
    const names = (Object.keys(MEASURES) as MeasureId[]).map((id) => words.measure(id))
    expect(names.filter((name) => name === '' || /undefined|-/.test(name))).toEqual([])
    expect(new Set(names).size).toBe(names.length)
  })
})

describe('questions about what was typed', () => {
  test.each([
    ['8,25 %', 'Do you mean 8.25? Write a point for decimals, and no comma.'],
    ['1,000 mL', 'Do you mean 1 or 1000? Write a point for decimals, and no comma.'],
    ['2 gal', 'Which gal: US or imperial?'],
    ['1 tbsp', 'Which tbsp: US, imperial, metric or Australian?'],
    ['5', '5 of what? Add a unit, such as mL, fl oz or g.'],
    ['5 buckets', '"buckets" is no unit known here.'],
    ['-5 mL', '-5 is below zero.'],
    ['mL', 'There is no number in it.']
  ])('%s', (typed, expected) => {
    const parsed = parseQuantity(typed, null)
    expect(parsed.kind === 'quantity' ? null : words.ask(parsed)).toBe(expected)
  })
})

describe('gases', () => {
  test.each(['chlorine', 'chloramine'] as const)('%s is announced with its signal word, harm and way out', (gas) => {
    // ANSI Z535.4, as quoted by secondary pages: WARNING could cause death or serious injury.
    expect(words.gas(gas)).toMatch(/^Warning\. .+ can kill\. Rinse fully .+ never mix them\.$/)
  })
})
