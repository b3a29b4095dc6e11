/** What a plan says about now: where the hands go, when all is over, and what another choice would cost. */
import type { LaneId } from '../procedure/procedure.ts'
import { worstLateness, type Late } from './lateness.ts'
import { DEFAULTS, planFor, type Planned } from './plan.ts'
import type { Problem } from './problem.ts'

export interface Forecast {
  readonly planned: Planned
  /** The other lanes that one pair of hands could begin on now. */
  readonly otherwise: readonly Otherwise[]
  /** The step that begins too late, where no order keeps every maximum; the worst of them. */
  readonly late: Late | null
}

/** Beginning on `lane` instead. */
export interface Otherwise {
  readonly lane: LaneId
  /** How much later everything would be over, ms; never negative: what the plan gives up is to keep hands where they are. */
  readonly laterMs: number
  /** A maximum that the plan keeps would be missed. */
  readonly misses: boolean
}

/** How much of the plan's own budget one other choice may cost. */
const SHARE = 0.25

/** `inHand`: the lane whose step has been begun, or called; it is left before its end only for the sake of a maximum. */
export function forecast(problem: Problem, inHand: LaneId | null): Forecast {
  const planned = planFor(problem, { ...DEFAULTS, firstOn: inHand })
  if (planned.kind === 'fault') return { planned, otherwise: [], late: null }
  const { plan } = planned
  const late = plan.limits.kind === 'missed' ? worstLateness(problem, plan) : null
  if (problem.hands.length > 1) return { planned, otherwise: [], late }
  const first = plan.order[0]?.lane
  const otherwise = problem.chains.flatMap(({ lane, tasks, readyMs }): readonly Otherwise[] => {
    if (lane === first || tasks[0]?.block !== 0 || readyMs > 0) return []
    const other = planFor(problem, { ...DEFAULTS, budget: DEFAULTS.budget * SHARE, firstOn: lane })
    if (other.kind === 'fault') return []
    // Sent elsewhere all the same: beginning there keeps no limit.
    const misses = plan.limits.kind === 'kept' && other.plan.order[0]?.lane !== lane
    return [{ lane, laterMs: Math.max(0, other.plan.finish - plan.finish), misses }]
  })
  return { planned, otherwise, late }
}
