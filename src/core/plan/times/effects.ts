/**
 * What the shop, an operator, a machine, a step and a day each add to the logarithm of a time: a linear mixed model.
 *
 * The effects, and how well they are known, come from Henderson's mixed model equations (Biometrics 31, 1975, from
 * memory). Outliers, such as a customer served in the middle of a step, pull no more than Huber's weights let them
 * (Annals of Mathematical Statistics 35, 1964, from memory); the problem stays convex, so there is one answer. The
 * spread of the day's effects is fitted by expectation and maximization (Dempster, Laird and Rubin, Journal of the Royal
 * Statistical Society B 39, 1977, from memory).
 */
import { factorized, forward, solved, type Matrix } from './cholesky.ts'

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
  readonly noise: number
  readonly effects: Readonly<Record<Effect['kind'], number>>
  /** The day's variance is learned; what is believed of it weighs as much as so many days. */
  readonly dayWeight: number
}

export interface Fit {
  readonly sumOf: (effects: readonly Effect[]) => number
  /** How uncertain that sum is; effects never seen count whole. */
  readonly varianceOf: (effects: readonly Effect[]) => number
  readonly dayVariance: number
}

/** Huber's constant: times within so many standard deviations count whole. */
export const WHOLE_WITHIN = 2
const MOST_ROUNDS = 30
const CLOSE_ENOUGH = 1e-6

export function fittedEffects(rows: readonly Row[], beliefs: Beliefs): Fit {
  const effects = [...new Map(rows.flatMap((row) => row.effects).map((effect) => [keyOf(effect), effect])).values()]
  const index = new Map(effects.map((effect, at) => [keyOf(effect), at]))
  const placeOf = (effect: Effect) => index.get(keyOf(effect)) ?? -1
  const places = rows.map((row) => row.effects.map(placeOf))
  const days = effects.flatMap((effect, at) => (effect.kind === 'day' ? [at] : []))
  const whole = WHOLE_WITHIN * Math.sqrt(beliefs.noise)
  let values: Float64Array = new Float64Array(effects.length)
  let factor: Matrix = []
  let dayVariance = beliefs.effects.day
  const priorOf = ({ kind }: Effect) => (kind === 'day' ? dayVariance : beliefs.effects[kind])
  const varianceAt = (at: readonly number[]) => squaredLength(forward(factor, pointingAt(effects.length, at)))

  for (let round = 0; round < MOST_ROUNDS; round += 1) {
    const left = effects.map((_, at) => new Float64Array(at + 1))
    const right = new Float64Array(effects.length)
    effects.forEach((effect, at) => add(left, at, at, 1 / priorOf(effect)))
    rows.forEach(({ value }, row) => {
      const own = places[row] ?? []
      const rest = Math.abs(value - own.reduce((sum, at) => sum + (values[at] ?? 0), 0))
      const weight = (rest <= whole ? 1 : whole / rest) / beliefs.noise
      for (const i of own) {
        right[i] = (right[i] ?? 0) + weight * value
        for (const j of own) if (j <= i) add(left, i, j, weight)
      }
    })
    factor = factorized(left)
    const next = solved(factor, right)
    const moved = next.reduce((most, value, at) => Math.max(most, Math.abs(value - (values[at] ?? 0))), 0)
    values = next
    const squares = days.reduce((sum, at) => sum + (next[at] ?? 0) ** 2 + varianceAt([at]), 0)
    const { dayWeight } = beliefs
    dayVariance = (dayWeight * beliefs.effects.day + squares) / (dayWeight + days.length)
    if (moved < CLOSE_ENOUGH) break
  }
  return {
    sumOf: (asked) => asked.reduce((sum, effect) => sum + (values[placeOf(effect)] ?? 0), 0),
    varianceOf(asked) {
      const unseen = asked.filter((effect) => placeOf(effect) < 0)
      return varianceAt(asked.map(placeOf)) + unseen.reduce((sum, effect) => sum + priorOf(effect), 0)
    },
    dayVariance
  }
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
