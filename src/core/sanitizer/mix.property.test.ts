import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { MEASURES, measuresOf, type MeasureId } from './measure.ts'
import { mix, strengthMade, type Mix, type Order } from './mix.ts'
import { CONVENTIONS, type Product } from './rule-set.ts'

const CAP = 200
/** Below what anybody can measure, above the last bits of a sum. */
const HAIR = 1e-7

const liquid: fc.Arbitrary<Product> = fc.record({
  form: fc.constant('liquid' as const),
  agent: fc.constant('chlorine' as const),
  percent: fc.double({ min: 0.5, max: 16, noNaN: true }),
  convention: fc.constantFrom(...CONVENTIONS, 'unstated' as const),
  density: fc.option(fc.double({ min: 1, max: 1.3, noNaN: true }), { nil: null })
})
const solid: fc.Arbitrary<Product> = fc.oneof(
  fc.record({
    form: fc.constant('powder' as const),
    agent: fc.constant('chlorine' as const),
    percent: fc.double({ min: 1, max: 90, noNaN: true })
  }),
  fc.record({
    form: fc.constant('tablet' as const),
    agent: fc.constant('chlorine' as const),
    milligrams: fc.double({ min: 10, max: 5000, noNaN: true })
  })
)
const order: fc.Arbitrary<Order> = fc.record({
  product: fc.oneof(liquid, solid),
  targetPpm: fc.double({ min: 1, max: 260, noNaN: true }),
  milliliters: fc.double({ min: 100, max: 500_000, noNaN: true }),
  capPpm: fc.constantFrom(CAP, null),
  measure: fc.option(fc.constantFrom(...(Object.keys(MEASURES) as MeasureId[])))
})

const RUNS = { numRuns: 3000 }

describe('any order', () => {
  it('gives a batch between target and cap, or is refused for a reason that holds', () => {
    const seen = new Map<Mix['kind'], number>()
    fc.assert(
      fc.property(order, (asked) => {
        const mixed = mix(asked)
        seen.set(mixed.kind, (seen.get(mixed.kind) ?? 0) + 1)
        const { targetPpm, capPpm, product, milliliters } = asked
        switch (mixed.kind) {
          case 'recipe': {
            const { low = 0, high = 0 } = strengthMade(product, mixed.dose?.amount ?? mixed.amount, milliliters) ?? {}
            expect(low).toBeGreaterThanOrEqual(targetPpm * (1 - HAIR))
            expect(high).toBeLessThanOrEqual((capPpm ?? Infinity) * (1 + HAIR))
            expect(mixed.result.low).toBeGreaterThanOrEqual(targetPpm)
            expect(mixed.result.high).toBeLessThanOrEqual(capPpm ?? Infinity)
            return
          }
          case 'over-cap':
            expect(targetPpm).toBeGreaterThan(capPpm ?? Infinity)
            return
          case 'stock-too-weak':
            expect(mixed.stockPpm).toBeLessThanOrEqual(targetPpm)
            return
          case 'no-step-fits':
            expect(mixed.below).toBeLessThan(targetPpm)
            expect(mixed.above).toBeGreaterThan(capPpm ?? Infinity)
            return
          case 'density-missing':
            expect(strengthMade(product, 1, milliliters)).toBeNull()
            return
          case 'density-too-vague':
            expect(mixed.highPpm).toBeGreaterThan(capPpm ?? Infinity)
            return
          case 'wrong-measure':
            expect(asked.measure).not.toBeNull()
        }
      }),
      RUNS
    )
    for (const kind of ['recipe', 'over-cap', 'no-step-fits', 'density-missing', 'wrong-measure'] as const) {
      expect(seen.get(kind) ?? 0, kind).toBeGreaterThan(20)
    }
  })

  it('names measures that fit, and no other that fits as well', () => {
    fc.assert(
      fc.property(order, (asked) => {
        const mixed = mix({ ...asked, measure: asked.product.form === 'liquid' ? 'cup-us' : 'g' })
        if (mixed.kind !== 'no-step-fits' && mixed.kind !== 'wrong-measure') return
        const of = { liquid: 'volume', powder: 'mass', tablet: 'count' } as const
        const fits = measuresOf(of[asked.product.form]).filter((measure) => {
          const tried = mix({ ...asked, measure })
          return tried.kind === 'recipe' && (tried.dose?.count ?? 0) <= MEASURES[measure].most
        })
        expect(mixed.fitting).toEqual(fits)
      }),
      RUNS
    )
    expect.hasAssertions()
  })

  it('is undone by asking what strength was made', () => {
    fc.assert(
      fc.property(order, (asked) => {
        const mixed = mix({ ...asked, measure: null, capPpm: null })
        if (mixed.kind !== 'recipe') return
        const made = strengthMade(asked.product, mixed.amount, asked.milliliters)
        expect((made?.low ?? 0) / asked.targetPpm).toBeCloseTo(1, 9)
      }),
      RUNS
    )
    expect.hasAssertions()
  })

  it('wants more for a stronger or larger batch, less of a stronger product, and makes more of a larger dose', () => {
    const more = fc.double({ min: 1.001, max: 2, noNaN: true })
    fc.assert(
      fc.property(order, more, (asked, factor) => {
        const amountOf = (change: Partial<Order>) => {
          const mixed = mix({ ...asked, capPpm: null, measure: null, ...change })
          return mixed.kind === 'recipe' ? mixed.amount : null
        }
        const amount = amountOf({})
        const { product } = asked
        if (amount === null) return
        expect(amountOf({ targetPpm: asked.targetPpm * factor }) ?? Infinity).toBeGreaterThan(amount)
        expect(amountOf({ milliliters: asked.milliliters * factor })).toBeGreaterThan(amount)
        const stronger: Product =
          product.form === 'tablet'
            ? { ...product, milligrams: product.milligrams * factor }
            : product.form === 'powder'
              ? { ...product, percent: product.percent * factor }
              : { ...product, percent: product.percent * factor, density: product.density ?? 1.08 }
        // Another percent may have another usual density, so both get one.
        const same: Product = product.form === 'liquid' ? { ...product, density: product.density ?? 1.08 } : product
        expect(amountOf({ product: stronger })).toBeLessThan(amountOf({ product: same }) ?? 0)
        const made = (dosed: number) => strengthMade(same, dosed, asked.milliliters)?.low ?? 0
        expect(made(amount * factor)).toBeGreaterThan(made(amount))
      }),
      RUNS
    )
    expect.hasAssertions()
  })

  it('never gets a smaller dose for a higher target', () => {
    fc.assert(
      fc.property(order, fc.double({ min: 1, max: 2, noNaN: true }), (asked, factor) => {
        const lower = mix(asked)
        const higher = mix({ ...asked, targetPpm: asked.targetPpm * factor })
        if (lower.kind !== 'recipe' || higher.kind !== 'recipe') return
        expect(higher.dose?.amount ?? higher.amount).toBeGreaterThanOrEqual(lower.dose?.amount ?? lower.amount)
      }),
      RUNS
    )
    expect.hasAssertions()
  })
})
