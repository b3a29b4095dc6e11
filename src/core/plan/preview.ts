/** The whole run, before it has begun. */
import { naiveOrders, type NaiveOrders } from './naive-orders.ts'
import { DEFAULTS, planFor, type Planned } from './plan.ts'
import type { Problem } from './problem.ts'

export interface Preview {
  readonly planned: Planned
  /** What the same takes without a plan. */
  readonly naive: NaiveOrders
}

export function preview(problem: Problem): Preview {
  return { planned: planFor(problem, DEFAULTS), naive: naiveOrders(problem) }
}
