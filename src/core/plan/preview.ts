/** The whole run, before it has begun. */
import type { Times } from './forecast.ts'
import { naiveOrders, type NaiveOrders } from './naive-orders.ts'
import { DEFAULTS, planFor, type Planned } from './plan.ts'
import type { Problem } from './problem.ts'
import { finishTimes, type FinishTimes } from './times/finish-times.ts'

export interface Preview {
  readonly planned: Planned
  /** What the same takes without a plan. */
  readonly naive: NaiveOrders
  /** How likely it is over by when; null where nothing can be planned, or no times are known. */
  readonly finish: FinishTimes | null
}

export function preview(problem: Problem, times: Times | null): Preview {
  const planned = planFor(problem, DEFAULTS)
  return {
    planned,
    naive: naiveOrders(problem),
    finish: planned.kind === 'plan' && times ? finishTimes(problem, planned.plan.order, times, times.pace) : null
  }
}
