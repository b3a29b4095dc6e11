/**
 * Times that are known by their means and covariances, and the later of two of them (Clark, The Greatest of a Finite Set
 * of Random Variables, Operations Research 9, 1961, from memory).
 */
import { normalAt } from './normal.ts'

/** The times at work, each in a place of its own. */
export interface Moments {
  readonly means: Float64Array
  /** Third central moments. */
  readonly thirds: Float64Array
  /** Row by row. */
  readonly covariances: readonly Float64Array[]
}

/** One more time: how it varies with each of those at work. */
export interface Variable {
  mean: number
  variance: number
  third: number
  readonly withOthers: Float64Array
}

export function noMoments(count: number): Moments {
  return {
    means: new Float64Array(count),
    thirds: new Float64Array(count),
    covariances: Array.from({ length: count }, () => new Float64Array(count))
  }
}

export function newVariable(count: number): Variable {
  return { mean: 0, variance: 0, third: 0, withOthers: new Float64Array(count) }
}

/** Makes `variable` what stands in `place`, `later` so much. */
export function take(variable: Variable, { means, thirds, covariances }: Moments, place: number, later: number): void {
  const row = covariances[place]
  variable.mean = (means[place] ?? 0) + later
  variable.variance = row?.[place] ?? 0
  variable.third = thirds[place] ?? 0
  if (row) variable.withOthers.set(row)
}

/** Beyond so many standard deviations the one is the later for sure, as far as these figures go. */
const SURE = 6

/** Makes `variable` the later of itself and of what stands in `place`, `later` so much. */
export function orLater(variable: Variable, moments: Moments, place: number, later: number): void {
  const row = moments.covariances[place]
  if (!row) return
  const mean = (moments.means[place] ?? 0) + later
  const variance = row[place] ?? 0
  const { mean: own, variance: ownVariance, withOthers } = variable
  const gap = own - mean
  const spread = Math.sqrt(Math.max(0, ownVariance + variance - 2 * (withOthers[place] ?? 0)))
  if (gap >= SURE * spread) return
  if (-gap >= SURE * spread) return take(variable, moments, place, later)
  const { density, below, above } = normalAt(gap / spread)
  // Counted from the mean of the other, so that small variances of late times keep their digits.
  const first = gap * below + spread * density
  const second = (gap * gap + ownVariance) * below + variance * above + gap * spread * density
  variable.mean = mean + first
  variable.variance = Math.max(0, second - first * first)
  variable.third = variable.third * below + (moments.thirds[place] ?? 0) * above
  for (let other = 0; other < withOthers.length; other += 1)
    withOthers[other] = (withOthers[other] ?? 0) * below + (row[other] ?? 0) * above
}

/** Puts `variable` in some places. */
export function put(variable: Variable, { means, thirds, covariances }: Moments, places: readonly number[]): void {
  for (const place of places) {
    means[place] = variable.mean
    thirds[place] = variable.third
    covariances.forEach((row, other) => {
      row[place] = variable.withOthers[other] ?? 0
    })
    covariances[place]?.set(variable.withOthers)
  }
  for (const place of places)
    for (const other of places) {
      const row = covariances[place]
      if (row) row[other] = variable.variance
    }
}
