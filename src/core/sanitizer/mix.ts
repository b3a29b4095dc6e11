/**
 * How much product makes a batch of a strength. The amount is rounded to what can be measured so that the batch is never
 * weaker than the target and never above the cap; where no step fits between, there is no recipe.
 */
import { MEASURES, measuresOf, type MeasureId } from './measure.ts'
import type { Product } from './rule-set.ts'
import { stockStrength, type Guess, type Strength } from './stock.ts'

export interface Order {
  readonly product: Product
  readonly targetPpm: number
  /** What stands in the vessel in the end, product and water together. */
  readonly milliliters: number
  /** The most that may stay on without a rinse; null where the product is not for food contact. */
  readonly capPpm: number | null
  /** Null asks for the exact amount. */
  readonly measure: MeasureId | null
}

export interface Dose {
  readonly measure: MeasureId
  readonly count: number
  /** `count` of the measure in millilitres, grams or tablets. */
  readonly amount: number
}

export type Mix =
  | {
      readonly kind: 'recipe'
      /** Exactly what gives the target, in millilitres, grams or tablets; at the lower density where that is a guess. */
      readonly amount: number
      readonly of: 'volume' | 'mass' | 'count'
      readonly dose: Dose | null
      /** What the dose makes, or the exact amount where there is none. Every batch is read with a strip all the same. */
      readonly result: Strength
      readonly guess: Guess | null
    }
  | { readonly kind: 'over-cap'; readonly capPpm: number }
  | { readonly kind: 'density-missing' }
  /** The target is good, but with the density only known about, the batch could go over the cap. */
  | { readonly kind: 'density-too-vague'; readonly capPpm: number; readonly highPpm: number }
  | { readonly kind: 'stock-too-weak'; readonly stockPpm: number }
  | { readonly kind: 'wrong-measure'; readonly fitting: readonly MeasureId[] }
  /** `below` and `above` are what the two nearest steps would make. */
  | {
      readonly kind: 'no-step-fits'
      readonly below: number
      readonly above: number
      readonly fitting: readonly MeasureId[]
    }

/** For the last bits of a sum, far below what can be measured. */
const ALLOWANCE = 1e-9

export function mix(order: Order): Mix {
  const { product, targetPpm, capPpm, measure, milliliters } = order
  if (capPpm !== null && targetPpm > capPpm) return { kind: 'over-cap', capPpm }
  const source = sourceOf(product)
  if (source.kind === 'density-missing') return source
  const { strength, guess, of } = source
  if (of !== 'count' && strength.low <= targetPpm) return { kind: 'stock-too-weak', stockPpm: strength.low }
  const amount = (targetPpm * milliliters) / strength.low
  const makes = (dosed: number) => settledOn(made(strength, dosed, milliliters), targetPpm, capPpm)
  const exact = makes(amount)
  if (isOver(exact, capPpm)) return { kind: 'density-too-vague', capPpm: capPpm ?? Infinity, highPpm: exact.high }
  if (measure === null) return { kind: 'recipe', amount, of, dose: null, result: exact, guess }
  const fitting = measuresOf(of).filter((id) => {
    const { count, amount: dosed } = roundedUp(amount, id)
    return count <= MEASURES[id].most && !isOver(makes(dosed), capPpm)
  })
  if (MEASURES[measure].of !== of) return { kind: 'wrong-measure', fitting }
  const dose = roundedUp(amount, measure)
  const result = makes(dose.amount)
  if (!isOver(result, capPpm)) return { kind: 'recipe', amount, of, dose, result, guess }
  const { size, parts } = MEASURES[measure]
  return { kind: 'no-step-fits', below: makes(dose.amount - size / parts).low, above: result.high, fitting }
}

function isOver({ high }: Strength, capPpm: number | null): boolean {
  return capPpm !== null && high > capPpm
}

/** What an amount of product makes of a batch, or null where the density must be known first. */
export function strengthMade(product: Product, amount: number, milliliters: number): Strength | null {
  const source = sourceOf(product)
  if (source.kind === 'density-missing') return null
  return made(source.strength, amount, milliliters)
}

function made({ low, high }: Strength, amount: number, milliliters: number): Strength {
  return { low: (low * amount) / milliliters, high: (high * amount) / milliliters }
}

/** The smallest count of whole steps that is not less than the amount. */
function roundedUp(amount: number, measure: MeasureId): Dose {
  const { size, parts } = MEASURES[measure]
  const steps = (amount / size) * parts
  const count = Math.ceil(steps - ALLOWANCE * Math.max(1, steps)) / parts
  return { measure, count, amount: count * size }
}

/** Puts a sum that only its last bits keep from the target or the cap onto it. */
function settledOn({ low, high }: Strength, targetPpm: number, capPpm: number | null): Strength {
  const settled = (ppm: number) =>
    [targetPpm, capPpm].find((limit) => limit !== null && Math.abs(ppm - limit) <= ALLOWANCE * 10 * limit) ?? ppm
  return { low: settled(low), high: settled(high) }
}

type Source =
  | {
      readonly kind: 'known'
      /** Parts per million times millilitres of batch that one millilitre, gram or tablet gives. */
      readonly strength: Strength
      readonly guess: Guess | null
      readonly of: 'volume' | 'mass' | 'count'
    }
  | { readonly kind: 'density-missing' }

function sourceOf(product: Product): Source {
  if (product.form === 'tablet') {
    const perTablet = product.milligrams * 1000
    return { kind: 'known', strength: { low: perTablet, high: perTablet }, guess: null, of: 'count' }
  }
  const stock = stockStrength(product)
  return stock.kind === 'known' ? { ...stock, of: product.form === 'powder' ? 'mass' : 'volume' } : stock
}
