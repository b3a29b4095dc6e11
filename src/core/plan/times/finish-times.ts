/**
 * When a plan will be over, as likely as people ask for it: Clark's moments carried along the plan at each pace that the
 * day may have, and mixed. Waits and ways between lanes take exactly their time; hands-on times vary.
 */
import type { PlannedTask } from '../plan.ts'
import type { Problem } from '../problem.ts'
import type { Interruptions } from './interruptions.ts'
import type { LearnedTimes, Pace } from './learned-times.ts'
import { newVariable, noMoments, orLater, put, take } from './moments.ts'
import { skewedBelow } from './normal.ts'
import { precedenceOf, type After, type Precedence } from './precedence.ts'

/** ms from now. */
export interface FinishTimes {
  readonly p50: number
  readonly p80: number
  readonly p95: number
}

const SECOND_MS = 1000
/** Paces looked at, over so many standard deviations on each side. */
const PACES = 27
const REACH = 4
/** Of a time nobody knows anything about, such as putting something right: a guess. */
const UNKNOWN_LOG_VARIANCE = 0.5

/** `order` as planned for `problem`, hands-on times of which are means at today's `pace`. */
export function finishTimes(
  problem: Problem,
  order: readonly PlannedTask[],
  { steps, interruptions }: Pick<LearnedTimes, 'steps' | 'interruptions'>,
  pace: Pace
): FinishTimes {
  const precedence = precedenceOf(problem, order)
  const relative = order.map(({ step, round }) => {
    const known = round > 0 && Object.hasOwn(steps, step) ? steps[step] : undefined
    return Math.expm1(known?.logVariance ?? UNKNOWN_LOG_VARIANCE)
  })
  const spread = Math.sqrt(pace.logVariance)
  const count = spread > 0 ? PACES : 1
  const finishes = Array.from({ length: count }, (_, index): Finish => {
    const z = count === 1 ? 0 : REACH * ((2 * index) / (count - 1) - 1)
    const factor = Math.exp(z * spread - pace.logVariance / 2)
    return { weight: Math.exp((-z * z) / 2), ...finishAt(precedence, relative, factor, interruptions) }
  })
  return { p50: quantile(finishes, 0.5), p80: quantile(finishes, 0.8), p95: quantile(finishes, 0.95) }
}

interface Finish {
  readonly weight: number
  readonly mean: number
  readonly deviation: number
  readonly skew: number
}

function finishAt(
  { places, tasks, finish }: Precedence,
  relative: readonly number[],
  factor: number,
  { lost, squared: lostSquared, cubed: lostCubed }: Interruptions
): Pick<Finish, 'mean' | 'deviation' | 'skew'> {
  const moments = noMoments(places)
  const variable = newVariable(places)
  const latest = (after: readonly After[]) => {
    after.forEach(({ place, later }, index) => {
      if (index === 0) take(variable, moments, place, later)
      else orLater(variable, moments, place, later)
    })
  }
  tasks.forEach(({ planned, after, places: into }, index) => {
    const mean = (planned.end - planned.start) * factor
    // Of a lognormal: its variance and third central moment, in terms of the squared coefficient of variation.
    const squared = relative[index] ?? 0
    latest(after)
    variable.mean += mean + mean * lost
    variable.variance += mean ** 2 * squared + mean * lostSquared * SECOND_MS
    variable.third += mean ** 3 * squared ** 2 * (squared + 3) + mean * lostCubed * SECOND_MS ** 2
    put(variable, moments, into)
  })
  latest(finish)
  const deviation = Math.sqrt(variable.variance)
  return { mean: variable.mean, deviation, skew: deviation > 0 ? variable.third / deviation ** 3 : 0 }
}

/** Halved so often that what is left is less than a millisecond. */
const MOST_HALVINGS = 60

function quantile(finishes: readonly Finish[], share: number): number {
  const total = finishes.reduce((sum, { weight }) => sum + weight, 0)
  const over = (at: number) => finishes.reduce((sum, finish) => sum + finish.weight * shareBefore(finish, at), 0)
  let low = Math.min(...finishes.map(({ mean, deviation }) => mean - 4 * deviation))
  let high = Math.max(...finishes.map(({ mean, deviation }) => mean + 4 * deviation))
  for (let halving = 0; halving < MOST_HALVINGS && high - low > 0.5; halving += 1) {
    const middle = (low + high) / 2
    if (over(middle) < share * total) low = middle
    else high = middle
  }
  return high
}

function shareBefore({ mean, deviation, skew }: Finish, at: number): number {
  if (deviation === 0) return at >= mean ? 1 : 0
  return skewedBelow((at - mean) / deviation, skew)
}
