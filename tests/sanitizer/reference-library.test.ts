/**
 * Units and sums against mathjs, a general-purpose library. Its inch, gallon, degrees and grams are its own; household
 * measures are made there from their definitions, because some of its own are rounded.
 */
import fc from 'fast-check'
import { all, create, type Unit } from 'mathjs'
import { describe, expect, it } from 'vitest'
import { mix, strengthMade } from '../../src/core/sanitizer/mix.ts'
import { parseQuantity } from '../../src/core/sanitizer/parse-quantity.ts'
import type { Product } from '../../src/core/sanitizer/rule-set.ts'
import { MASS_G, VOLUME_ML, type VolumeUnit } from '../../src/core/sanitizer/unit.ts'
import { inUnit } from '../../src/core/sanitizer/temperature.ts'

const math = create(all ?? {})
const DEFINED: Readonly<Record<string, string>> = {
  usgal: '231 in^3',
  usfloz: '1 usgal / 128',
  impgal: '4.54609 L',
  impfloz: '1 impgal / 160'
}
for (const [name, definition] of Object.entries(DEFINED)) math.createUnit(name, math.evaluate(definition) as Unit)

/** What each unit is: NIST Handbook 44 Appendix C for the US ones; imperial, metric and Australian from memory. */
const DEFINITIONS: Readonly<Record<VolumeUnit, string>> = {
  ml: '1 mL',
  l: '1 L',
  'gal-us': '1 usgal',
  'qt-us': '1 usgal / 4',
  'pt-us': '1 usgal / 8',
  'cup-us': '8 usfloz',
  'floz-us': '1 usfloz',
  'tbsp-us': '1 usfloz / 2',
  'tsp-us': '1 usfloz / 6',
  'gal-imperial': '1 impgal',
  'qt-imperial': '1 impgal / 4',
  'pt-imperial': '1 impgal / 8',
  'cup-imperial': '10 impfloz',
  'floz-imperial': '1 impfloz',
  'tbsp-imperial': '5 impfloz / 8',
  'tsp-imperial': '5 impfloz / 24',
  'cup-metric': '250 mL',
  'tbsp-metric': '15 mL',
  'tsp-metric': '5 mL',
  'cup-australian': '250 mL',
  'tbsp-australian': '20 mL',
  'tsp-australian': '5 mL'
}

const volumeUnits = Object.keys(DEFINITIONS) as VolumeUnit[]
const inMilliliters = (expression: string): number => math.evaluate(`number(${expression}, mL)`) as number
const near = (value: number, expected: number) => expect(Math.abs(value / expected - 1)).toBeLessThan(1e-9)
const RUNS = { numRuns: 3000 }

describe('units', () => {
  it('are all defined', () => {
    expect(volumeUnits.toSorted()).toEqual(Object.keys(VOLUME_ML).toSorted())
  })

  it.each(volumeUnits)('%s', (unit) => {
    near(VOLUME_ML[unit], inMilliliters(DEFINITIONS[unit]))
  })

  it.each([
    // As printed: 231 cubic inches, and pages of unit tables that carry the digits.
    ['gal-us', 3785.411784],
    ['floz-us', 29.5735295625],
    ['tbsp-us', 14.78676478125],
    ['tsp-us', 4.92892159375],
    ['cup-us', 236.5882365],
    ['floz-imperial', 28.4130625],
    ['tbsp-australian', 20]
  ] as const)('%s has %s mL in print', (unit, milliliters) => {
    near(VOLUME_ML[unit], milliliters)
  })

  it.each([
    ['kg', '1 kg'],
    ['mg', '1 mg'],
    ['lb', '1 lbm']
  ] as const)('%s', (unit, expression) => {
    near(MASS_G[unit], math.evaluate(`number(${expression}, g)`) as number)
  })

  it('of temperature, both ways, thousands of times', () => {
    fc.assert(
      fc.property(fc.double({ min: -80, max: 400, noNaN: true }), (value) => {
        const toF = math.unit(value, 'degC').toNumber('degF')
        const toC = math.unit(value, 'degF').toNumber('degC')
        expect(inUnit({ value, unit: 'C' }, 'F')).toBeCloseTo(toF, 8)
        expect(inUnit({ value, unit: 'F' }, 'C')).toBeCloseTo(toC, 8)
      }),
      RUNS
    )
  })

  it('typed with a number, thousands of times', () => {
    const number = fc.oneof(
      fc.integer({ min: 1, max: 5000 }).map((value) => ({ typed: String(value), expression: String(value) })),
      fc
        .integer({ min: 1, max: 99_999 })
        .map((value) => ({ typed: String(value / 100), expression: `${value} / 100` })),
      fc
        .tuple(fc.integer({ min: 0, max: 9 }), fc.constantFrom('1/2', '1/4', '3/4', '1/3', '2/3', '1/8', '1/16'))
        .map(([whole, part]) => ({
          typed: whole === 0 ? part : `${whole} ${part}`,
          expression: `(${whole} + ${part})`
        }))
    )
    fc.assert(
      fc.property(number, fc.constantFrom(...volumeUnits), fc.constantFrom('', ' '), (amount, unit, space) => {
        const parsed = parseQuantity(`${amount.typed}${space}${unit}`, null)
        if (parsed.kind !== 'quantity' || parsed.quantity.kind !== 'volume') throw new Error(JSON.stringify(parsed))
        near(parsed.quantity.milliliters, inMilliliters(`${amount.expression} * (${DEFINITIONS[unit]})`))
      }),
      RUNS
    )
  })
})

describe('sums', () => {
  const batch = fc.record({
    percent: fc.double({ min: 1, max: 16, noNaN: true }),
    density: fc.double({ min: 1, max: 1.3, noNaN: true }),
    target: fc.double({ min: 1, max: 400, noNaN: true }),
    litres: fc.double({ min: 0.25, max: 5000, noNaN: true })
  })

  /** Grams available in a litre of stock, by what the percent means; F8 and F9. */
  const STOCK = {
    trade: 'p g / (100 mL)',
    unstated: 'p g / (100 mL)',
    available: 'p / 100 * d kg / L',
    weight: 'p / 1.05 / 100 * d kg / L'
  } as const

  it.each(Object.keys(STOCK) as (keyof typeof STOCK)[])('of liquids by %s percent, both ways', (convention) => {
    const amount = math.compile(`number(t mg/L * v L / (${STOCK[convention]}), mL)`)
    const strength = math.compile(`number(a mL * (${STOCK[convention]}) / (v L), mg/L)`)
    fc.assert(
      fc.property(batch, ({ percent, density, target, litres }) => {
        const product: Product = { form: 'liquid', agent: 'chlorine', percent, convention, density }
        const mixed = mix({ product, targetPpm: target, milliliters: litres * 1000, capPpm: null, measure: null })
        if (mixed.kind !== 'recipe') throw new Error(mixed.kind)
        const scope = { p: percent, d: density, t: target, v: litres }
        near(mixed.amount, amount.evaluate(scope) as number)
        const made = strengthMade(product, 10 + target, litres * 1000)
        near(made?.low ?? 0, strength.evaluate({ ...scope, a: 10 + target }) as number)
      }),
      { numRuns: 1500 }
    )
  })

  it('of powder and tablets', () => {
    const grams = math.compile('number(t mg/L * v L / (p / 100), g)')
    fc.assert(
      fc.property(batch, ({ percent, target, litres }) => {
        const order = { targetPpm: target, milliliters: litres * 1000, capPpm: null, measure: null }
        const powder = mix({ product: { form: 'powder', agent: 'chlorine', percent }, ...order })
        if (powder.kind !== 'recipe') throw new Error(powder.kind)
        near(powder.amount, grams.evaluate({ t: target, v: litres, p: percent }) as number)
        const tablets = mix({ product: { form: 'tablet', agent: 'chlorine', milligrams: 500 }, ...order })
        if (tablets.kind !== 'recipe') throw new Error(tablets.kind)
        near(tablets.amount * 500, math.evaluate('number(t mg/L * v L, mg)', { t: target, v: litres }) as number)
      }),
      RUNS
    )
  })
})
