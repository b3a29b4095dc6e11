import fc from 'fast-check'
import { add, inv, multiply, subtract, transpose } from 'mathjs'
import { describe, expect, it } from 'vitest'
import { fittedEffects, type Beliefs, type Effect } from './effects.ts'

const BELIEFS: Beliefs = {
  noise: 0.1,
  effects: { shop: 0.04, operator: 0.02, machine: 0.01, step: 0.1, day: 0.015 },
  noiseWeight: 1e12,
  dayWeight: 1e12
}

const operator = (name: string): Effect => ({ kind: 'operator', name })

/**
 * Dyestuff yield by batch (Davies and Goldsmith, Statistical Methods in Research and Production, 1972; the example of
 * lme4's documentation, with its REML variances 1764.05 and 2451.25 and its batch effects; all from memory).
 */
describe('the published dyestuff example', () => {
  const YIELDS = {
    A: [1545, 1440, 1440, 1520, 1580],
    B: [1540, 1555, 1490, 1560, 1495],
    C: [1595, 1550, 1605, 1510, 1560],
    D: [1445, 1440, 1595, 1465, 1545],
    E: [1595, 1630, 1515, 1635, 1625],
    F: [1520, 1455, 1450, 1480, 1445]
  }
  const MEAN = 1527.5
  const rows = Object.entries(YIELDS).flatMap(([batch, values]) =>
    values.map((value) => ({ effects: [operator(batch)], value: value - MEAN }))
  )
  const fit = fittedEffects(rows, {
    ...BELIEFS,
    noise: 2451.25,
    effects: { ...BELIEFS.effects, operator: 1764.05 }
  })

  it.each([
    ['A', -17.607],
    ['B', 0.391],
    ['C', 28.562],
    ['D', -23.085],
    ['E', 56.733],
    ['F', -44.995]
  ])('batch %s: %d', (batch, effect) => {
    expect(fit.sumOf([operator(batch)])).toBeCloseTo(effect, 2)
  })

  it('knows each batch as well as five yields let it, and a new one not at all', () => {
    expect(fit.varianceOf([operator('A')])).toBeCloseTo(1 / (1 / 1764.05 + 5 / 2451.25), 6)
    expect(fit.varianceOf([operator('G')])).toBe(1764.05)
    expect(fit.sumOf([operator('G')])).toBe(0)
  })
})

/** All effects at once, as a normal distribution conditioned on the times (the usual formula, by mathjs). */
function conditioned(rows: readonly { effects: readonly Effect[]; value: number }[], asked: readonly Effect[]) {
  const names = [
    ...new Set([...rows.flatMap(({ effects }) => effects), ...asked].map(({ kind, name }) => `${kind} ${name}`))
  ]
  const design = (effects: readonly Effect[]) =>
    names.map((name) => effects.filter((effect) => `${effect.kind} ${effect.name}` === name).length)
  const z = rows.map(({ effects }) => design(effects))
  const prior = names.map((name, i) =>
    names.map((_, j) => (i === j ? BELIEFS.effects[name.slice(0, name.indexOf(' ')) as Effect['kind']] : 0))
  )
  const identity = rows.map((_, i) => rows.map((__, j) => (i === j ? BELIEFS.noise : 0)))
  const covariance = add<number[][]>(multiply(multiply(z, prior), transpose(z)), identity)
  const gain = multiply(multiply(prior, transpose(z)), inv(covariance))
  const mean = gain.map((row) => row.reduce((sum, one, i) => sum + one * (rows[i]?.value ?? 0), 0))
  const left = subtract<number[][]>(prior, multiply(multiply(gain, z), prior))
  const weights = design(asked)
  return {
    sum: weights.reduce((sum, weight, i) => sum + weight * (mean[i] ?? 0), 0),
    variance: weights.reduce(
      (sum, weight, i) => sum + weight * weights.reduce((inner, other, j) => inner + other * (left[i]?.[j] ?? 0), 0),
      0
    )
  }
}

const anyEffects = fc
  .tuple(
    fc.constantFrom('ada', 'ben'),
    fc.constantFrom('one', 'two'),
    fc.constantFrom('fill', 'rinse', 'wipe'),
    fc.nat(3)
  )
  .map(([who, machine, step, day]): readonly Effect[] => [
    { kind: 'shop', name: '' },
    operator(who),
    { kind: 'machine', name: machine },
    { kind: 'step', name: step },
    { kind: 'day', name: String(day) }
  ])

it('is the normal distribution of all effects given the times, where none is an outlier', () => {
  fc.assert(
    fc.property(
      fc.array(fc.record({ effects: anyEffects, value: fc.double({ min: -0.25, max: 0.25, noNaN: true }) }), {
        minLength: 1,
        maxLength: 12
      }),
      anyEffects,
      fc.nat(5),
      (rows, effects, count) => {
        const asked = effects.slice(0, count)
        const fit = fittedEffects(rows, BELIEFS)
        const { sum, variance } = conditioned(rows, asked)
        expect(fit.sumOf(asked)).toBeCloseTo(sum, 6)
        expect(fit.varianceOf(asked)).toBeCloseTo(variance, 6)
      }
    )
  )
})

describe('the spread of days', () => {
  const free: Beliefs = { ...BELIEFS, dayWeight: 2 }
  const days = (values: readonly number[]) =>
    values.flatMap((value, day) =>
      Array.from({ length: 40 }, () => ({ effects: [{ kind: 'day', name: String(day) } as const], value }))
    )

  it('is what was believed, without a day', () => {
    expect(fittedEffects([], free).dayVariance).toBe(BELIEFS.effects.day)
  })

  it('comes to what days differ by, with many', () => {
    const values = Array.from({ length: 60 }, (_, day) => (day % 2 === 0 ? 0.3 : -0.3))
    expect(fittedEffects(days(values), free).dayVariance).toBeCloseTo(0.09, 2)
    expect(fittedEffects(days(values.map(() => 0)), free).dayVariance).toBeLessThan(0.004)
  })
})
