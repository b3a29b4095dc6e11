/**
 * What the shop, an operator, a machine, a step and a day each add to the logarithm of a time: a linear mixed model.
 *
 * The effects, and how well they are known, come from Henderson's mixed model equations (Biometrics 31, 1975, from
 * memory). Outliers, such as a customer served in the middle of a step, pull no more than Huber's weights let them
 * (Annals of Mathematical Statistics 35, 1964, from memory), around what most times say, never around what was believed.
 * The spread of the day's effects is fitted by expectation and maximization (Dempster, Laird and Rubin, Journal of the
 * Royal Statistical Society B 39, 1977, from memory).
 */
import { factorized, forward, inverseDiagonal, solved, type Matrix } from './cholesky.ts'

export interface Effect {
  readonly kind: 'shop' | 'operator' | 'machine' | 'step' | 'day'
  readonly name: string
}

/** One time: the effects it shows, one of each kind, and its logarithm. */
export interface Row {
  readonly effects: readonly Effect[]
  readonly value: number
}

/** Variances of logarithms before anything is known. */
export interface Beliefs {
  /** From one time to the next, all else the same. */
  readonly noise: number
  readonly effects: Readonly<Record<Effect['kind'], number>>
  /** The variances of noise and days are learned; what is believed of them weighs as much as so many times, or days. */
  readonly noiseWeight: number
  readonly dayWeight: number
}

export interface Fit {
  readonly sumOf: (effects: readonly Effect[]) => number
  /** How uncertain that sum is; effects never seen count whole. */
  readonly varianceOf: (effects: readonly Effect[]) => number
  readonly noise: number
  readonly dayVariance: number
}

/** Huber's constant: times within so many standard deviations count whole. */
const WHOLE_WITHIN = 2
/** What is left of a normal variance when everything beyond two standard deviations counts as two (normal table). */
const LEFT_OF_VARIANCE = 0.9205
const MOST_ROUNDS = 30
const CLOSE_ENOUGH = 1e-5

export function fittedEffects(rows: readonly Row[], beliefs: Beliefs): Fit {
  const effects = [...new Map(rows.flatMap((row) => row.effects).map((effect) => [keyOf(effect), effect])).values()]
  const index = new Map(effects.map((effect, at) => [keyOf(effect), at]))
  const placeOf = (effect: Effect) => index.get(keyOf(effect)) ?? -1
  const places = rows.map((row) => row.effects.map(placeOf))
  let values: Float64Array = new Float64Array(effects.length)
  let factor: Matrix = []
  let { noise } = beliefs
  let dayVariance = beliefs.effects.day
  const priorOf = ({ kind }: Effect) => (kind === 'day' ? dayVariance : beliefs.effects[kind])
  const restOf = (row: number) =>
    (rows[row]?.value ?? 0) - (places[row] ?? []).reduce((sum, at) => sum + (values[at] ?? 0), 0)

  for (let round = 0; round < MOST_ROUNDS; round += 1) {
    const left = effects.map((_, at) => new Float64Array(at + 1))
    const right = new Float64Array(effects.length)
    effects.forEach((effect, at) => add(left, at, at, 1 / priorOf(effect)))
    rows.forEach(({ value }, row) => {
      const own = places[row] ?? []
      const weight = wholeShare(restOf(row), noise) / noise
      for (const i of own) {
        right[i] = (right[i] ?? 0) + weight * value
        for (const j of own) if (j <= i) add(left, i, j, weight)
      }
    })
    factor = factorized(left)
    const next = solved(factor, right)
    const moved = next.reduce((most, value, at) => Math.max(most, Math.abs(value - (values[at] ?? 0))), 0)
    values = next
    const variances = inverseDiagonal(factor)
    // As many times as there are effects, less what holds those where they were, say nothing about the noise.
    let used = 0
    let [daySquares, days] = [0, 0]
    effects.forEach((effect, at) => {
      const variance = variances[at] ?? 0
      used += 1 - variance / priorOf(effect)
      if (effect.kind !== 'day') return
      days += 1
      daySquares += (next[at] ?? 0) ** 2 + variance
    })
    const squares = rows.reduce((sum, _, row) => sum + cutSquare(restOf(row), noise), 0)
    const { noiseWeight, dayWeight } = beliefs
    noise = (noiseWeight * beliefs.noise + squares) / (noiseWeight + Math.max(0, rows.length - used))
    dayVariance = (dayWeight * beliefs.effects.day + daySquares) / (dayWeight + days)
    if (moved < CLOSE_ENOUGH) break
  }
  return {
    sumOf: (asked) => asked.reduce((sum, effect) => sum + (values[placeOf(effect)] ?? 0), 0),
    varianceOf(asked) {
      const unseen = asked.filter((effect) => placeOf(effect) < 0)
      const known = squaredLength(forward(factor, pointingAt(effects.length, asked.map(placeOf))))
      return known + unseen.reduce((sum, effect) => sum + priorOf(effect), 0)
    },
    noise,
    dayVariance
  }
}

/** How much an observation so far off counts, from 0 to 1. */
export function wholeShare(rest: number, variance: number): number {
  const most = WHOLE_WITHIN * Math.sqrt(variance)
  return Math.abs(rest) <= most ? 1 : most / Math.abs(rest)
}

/** Its square, cut off so that outliers do not make everything seem noisy, and made good for that (Huber's Proposal 2). */
export function cutSquare(rest: number, variance: number): number {
  return Math.min(rest ** 2, WHOLE_WITHIN ** 2 * variance) / LEFT_OF_VARIANCE
}

function keyOf({ kind, name }: Effect): string {
  return `${kind} ${name}`
}

function add(matrix: Matrix, i: number, j: number, value: number): void {
  const row = matrix[i]
  if (row) row[j] = (row[j] ?? 0) + value
}

function pointingAt(length: number, places: readonly number[]): Float64Array {
  const vector = new Float64Array(length)
  for (const at of places) if (at >= 0) vector[at] = (vector[at] ?? 0) + 1
  return vector
}

function squaredLength(vector: Float64Array): number {
  return vector.reduce((sum, value) => sum + value * value, 0)
}
