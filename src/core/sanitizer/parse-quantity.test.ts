import { describe, expect, it, test } from 'vitest'
import { parseNumber } from './parse-number.ts'
import { parseQuantity } from './parse-quantity.ts'
import type { UnitSystem } from './unit.ts'

describe('numbers', () => {
  test.each([
    ['7.6', 7.6],
    ['0', 0],
    ['.5', 0.5],
    ['-18', -18],
    ['−18', -18],
    ['1/2', 0.5],
    ['1 1/2', 1.5],
    ['1-1/2', 1.5],
    ['1 and 1/2', 1.5],
    ['½', 0.5],
    ['1½', 1.5],
    ['1 ½', 1.5],
    ['  12.50 ', 12.5]
  ])('%j is %s', (typed, value) => {
    expect(parseNumber(typed)).toEqual({ kind: 'number', value })
  })

  test.each([
    ['8,25', 8.25, null],
    ['0,5', 0.5, null],
    ['1,000', 1, 1000],
    ['12,500', 12.5, 12_500],
    ['-1,5', -1.5, null]
  ])('%j is asked about', (typed, decimal, thousands) => {
    expect(parseNumber(typed)).toEqual({ kind: 'comma', decimal, thousands })
  })

  test.each([
    '',
    ' ',
    'a',
    '1e3',
    '0x10',
    'NaN',
    'Infinity',
    '1.2.3',
    '1,2,3',
    '1,000.5',
    '5.',
    '1/0',
    '1/2/3',
    '--5',
    '+5',
    '5 5',
    '½½',
    '9'.repeat(400)
  ])('%j is none', (typed) => {
    expect(parseNumber(typed)).toEqual({ kind: 'no-number' })
  })
})

describe('amounts', () => {
  test.each([
    ['7.6 L', null, { kind: 'volume', value: 7.6, unit: 'l', milliliters: 7600 }],
    ['250ml', null, { kind: 'volume', value: 250, unit: 'ml', milliliters: 250 }],
    ['2 liters', null, { kind: 'volume', value: 2, unit: 'l', milliliters: 2000 }],
    ['2 gal-us', null, { kind: 'volume', unit: 'gal-us', milliliters: 7570.823568 }],
    ['2 US gal', null, { kind: 'volume', unit: 'gal-us' }],
    ['2 gallons', 'imperial', { kind: 'volume', unit: 'gal-imperial', milliliters: 9092.18 }],
    ['2 imperial gallons', 'us', { kind: 'volume', unit: 'gal-imperial' }],
    ['1 1/2 tsp', 'us', { kind: 'volume', value: 1.5, unit: 'tsp-us' }],
    ['1 tbsp', 'australian', { kind: 'volume', unit: 'tbsp-australian', milliliters: 20 }],
    ['1 metric cup', null, { kind: 'volume', unit: 'cup-metric', milliliters: 250 }],
    ['4 fl. oz.', 'us', { kind: 'volume', unit: 'floz-us' }],
    ['½ cup', 'us', { kind: 'volume', value: 0.5, unit: 'cup-us' }],
    ['8 g', null, { kind: 'mass', grams: 8 }],
    ['1 lb', null, { kind: 'mass', grams: 453.59237 }],
    ['100 ppm', null, { kind: 'strength', ppm: 100 }],
    ['50 mg/L', null, { kind: 'strength', ppm: 50 }],
    ['8.25 %', null, { kind: 'strength', value: 8.25, unit: '%', ppm: 82_500 }],
    ['75 °F', null, { kind: 'temperature', value: 75, unit: 'F' }],
    ['-18 C', null, { kind: 'temperature', value: -18, unit: 'C' }],
    ['24 degrees Celsius', null, { kind: 'temperature', value: 24, unit: 'C' }],
    ['pH 7.4', null, { kind: 'ph', value: 7.4 }],
    ['7.4 pH', null, { kind: 'ph', value: 7.4 }]
  ] as const)('%j in a shop with %s measures', (typed, system: UnitSystem | null, expected) => {
    expect(parseQuantity(typed, system)).toMatchObject({ kind: 'quantity', quantity: expected })
  })

  test.each([
    ['2 gal', null, { kind: 'which-system', unit: 'gal', systems: ['us', 'imperial'] }],
    // There is no metric gallon to fall back on.
    ['2 gal', 'metric', { kind: 'which-system', unit: 'gal', systems: ['us', 'imperial'] }],
    ['1 tbsp', null, { kind: 'which-system', systems: ['us', 'imperial', 'metric', 'australian'] }],
    ['8,25 %', null, { kind: 'which-number', decimal: 8.25, thousands: null }],
    ['1,000 mL', null, { kind: 'which-number', decimal: 1, thousands: 1000 }],
    ['5', 'us', { kind: 'which-unit', value: 5 }],
    ['5 oz', 'us', { kind: 'which-unit', value: 5 }],
    ['5 buckets', 'us', { kind: 'unknown-unit', unit: 'buckets' }],
    ['5 toString', 'us', { kind: 'unknown-unit' }],
    ['5 constructor', 'us', { kind: 'unknown-unit' }],
    ['-5 mL', null, { kind: 'negative', value: -5 }],
    ['-1 ppm', null, { kind: 'negative', value: -1 }],
    ['mL', null, { kind: 'no-number' }],
    ['', null, { kind: 'no-number' }],
    ['some mL', null, { kind: 'no-number' }],
    ['1e9 mL', null, { kind: 'no-number' }]
  ] as const)('%j in a shop with %s measures is asked about', (typed, system: UnitSystem | null, expected) => {
    expect(parseQuantity(typed, system)).toMatchObject(expected)
  })

  it('are not taken from an object that happens to be there', () => {
    expect(parseQuantity('1 hasOwnProperty', null).kind).toBe('unknown-unit')
  })
})
