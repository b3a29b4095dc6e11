/** How today goes: the pace of a run, from the steps done so far. */
import type { LearnedTimes, Pace } from './learned-times.ts'
import { wholeShare } from './effects.ts'
import type { TimeSample } from './time-sample.ts'

const ROUNDS = 8

/**
 * The posterior of a normal mean with known variances (Gelman and others, Bayesian Data Analysis, section 2.5, from
 * memory), outliers held by Huber's weights. `samples` of this run, which the learned times do not know yet.
 */
export function paceOf({ steps, pace }: LearnedTimes, samples: readonly TimeSample[]): Pace {
  const times = samples.flatMap(({ step, seconds }) => {
    const known = Object.hasOwn(steps, step) ? steps[step] : undefined
    return known && seconds > 0 ? [{ rest: Math.log(seconds) - known.logMedian, variance: known.logVariance }] : []
  })
  let { logMean, logVariance } = pace
  for (let round = 0; round < ROUNDS; round += 1) {
    let precision = 1 / pace.logVariance
    let sum = pace.logMean * precision
    for (const { rest, variance } of times) {
      const weight = wholeShare(rest - logMean, variance) / variance
      precision += weight
      sum += weight * rest
    }
    logMean = sum / precision
    logVariance = 1 / precision
  }
  return { logMean, logVariance }
}
