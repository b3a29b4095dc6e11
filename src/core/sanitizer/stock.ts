/** How strong the product in the container is, from what its label says. */
import type { Product } from './rule-set.ts'

/**
 * Between two figures where the density is only known about. ppm is milligrams available in a litre of stock, parts per
 * million by weight for a powder.
 */
export interface Strength {
  readonly low: number
  readonly high: number
}

export type Guess =
  /** The label does not say what its percent means, so it is read as published dilution tables do: times 10,000. */
  | { readonly kind: 'convention' }
  /** A density usual at this strength, kg/L. */
  | { readonly kind: 'density'; readonly low: number; readonly high: number }

export type Stock =
  | { readonly kind: 'known'; readonly strength: Strength; readonly guess: Guess | null }
  | { readonly kind: 'density-missing' }

const PPM_IN_ONE_PERCENT = 10_000

/** Sodium hypochlorite by weight over what it has available: 74.4422 to 70.906 (Handbook of Chlorination 1972, as cited). */
const HYPOCHLORITE_OVER_AVAILABLE = 1.05

/** Household and 12.5 % hypochlorite, as secondary pages give them; kg/L. Other strengths have no figure here. */
const USUAL_DENSITIES = [
  { from: 5, to: 8.25, low: 1.08, high: 1.1 },
  { from: 12.5, to: 12.5, low: 1.16, high: 1.16 }
] as const

export function stockStrength(product: Exclude<Product, { form: 'tablet' }>): Stock {
  const { percent } = product
  if (product.form === 'powder') return known(percent, 1, 1, null)
  if (product.convention === 'trade') return known(percent, 1, 1, null)
  if (product.convention === 'unstated') return known(percent, 1, 1, { kind: 'convention' })
  const isCompound = product.convention === 'weight' && product.agent === 'chlorine'
  const available = isCompound ? percent / HYPOCHLORITE_OVER_AVAILABLE : percent
  if (product.density !== null) return known(available, product.density, product.density, null)
  const usual =
    product.agent === 'chlorine' ? USUAL_DENSITIES.find(({ from, to }) => percent >= from && percent <= to) : undefined
  if (usual === undefined) return { kind: 'density-missing' }
  return known(available, usual.low, usual.high, { kind: 'density', low: usual.low, high: usual.high })
}

function known(percent: number, low: number, high: number, guess: Guess | null): Stock {
  const ppm = percent * PPM_IN_ONE_PERCENT
  return { kind: 'known', strength: { low: ppm * low, high: ppm * high }, guess }
}
