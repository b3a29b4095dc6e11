/** P50, P80 and P95 of a plan's finish by simulation, for comparison with the moments. */
import type { PlannedTask } from '../../../src/core/plan/plan.ts'
import type { FinishTimes } from '../../../src/core/plan/times/finish-times.ts'
import type { Problem } from '../../../src/core/plan/problem.ts'
import { carrierOf } from './carried-out-plan.ts'
import { normal, seeded } from '../../helpers/seeded.ts'

export interface Spreads {
  /** Variance of the logarithm of each task's hands-on time, in the plan's order. */
  readonly tasks: readonly number[]
  /** The same of the factor that all share. */
  readonly pace: number
}

export function simulatedFinish(
  problem: Problem,
  order: readonly PlannedTask[],
  { tasks, pace }: Spreads,
  trials: number,
  seed: number
): FinishTimes {
  const chance = seeded(seed)
  // Lognormal, with mean 1.
  const factor = (logVariance: number) => Math.exp(normal(chance) * Math.sqrt(logVariance) - logVariance / 2)
  const carriedOut = carrierOf(problem, order)
  const means = order.map(({ start, end }) => end - start)
  const finishes = evenNormals(trials)
    .map((z) => {
      const today = Math.exp(z * Math.sqrt(pace) - pace / 2)
      return carriedOut(means.map((mean, index) => mean * today * factor(tasks[index] ?? 0)))
    })
    .sort()
  const at = (share: number) => finishes[Math.ceil(share * trials) - 1] ?? Number.NaN
  return { p50: at(0.5), p80: at(0.8), p95: at(0.95) }
}

/** So many standard normal values, one from each of as many equally likely stretches: paces taken evenly say more. */
function evenNormals(count: number): Float64Array {
  const width = 1e-4
  let z = -6
  let below = 0
  return Float64Array.from({ length: count }, (_, index) => {
    while (below < (index + 0.5) / count && z < 6) {
      below += (width * Math.exp(-((z + width / 2) ** 2) / 2)) / Math.sqrt(2 * Math.PI)
      z += width
    }
    return z
  })
}
