/** What a plan says about now: where the hands go, when all is over, and what another choice would cost. */
import type { LaneId } from '../procedure/procedure.ts'
import { worstLateness, type Late } from './lateness.ts'
import { DEFAULTS, planFor, planner, type Plan, type Planned, type PlanOptions } from './plan.ts'
import type { Problem } from './problem.ts'
import { finishTimes, type FinishTimes } from './times/finish-times.ts'
import type { LearnedTimes, Pace } from './times/learned-times.ts'

export interface Forecast {
  readonly planned: Planned
  /** The other lanes that one pair of hands could begin on now. */
  readonly otherwise: readonly Otherwise[]
  /** The step that begins too late, where no order keeps every maximum; the worst of them. */
  readonly late: Late | null
  /** How likely it is over by when; null where nothing can be planned, or no times are known. */
  readonly finish: FinishTimes | null
}

/** How times vary, and how today goes. */
export type Times = Pick<LearnedTimes, 'steps' | 'interruptions'> & { readonly pace: Pace }

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

/** Forecasts again and again as a run goes on: stretches that are still as they were are not planned again. */
export function forecaster(): typeof forecast {
  const best = planner()
  const others = new Map<LaneId, typeof best>()
  return (problem, inHand, times) =>
    forecast(problem, inHand, times, (given, options, lane) => {
      if (lane === undefined) return best(given, options)
      const known = others.get(lane) ?? planner()
      others.set(lane, known)
      return known(given, options)
    })
}

/** How a plan is made; `lane`: for a beginning elsewhere. */
type Planning = (problem: Problem, options: PlanOptions, lane?: LaneId) => Planned

/** `inHand`: the lane whose step has been begun, or called; it is left before its end only for the sake of a maximum. */
export function forecast(
  problem: Problem,
  inHand: LaneId | null,
  times: Times | null,
  plan: Planning = planFor
): Forecast {
  const planned = plan(problem, { ...DEFAULTS, firstOn: inHand })
  if (planned.kind === 'fault') return { planned, otherwise: [], late: null, finish: null }
  const first = planned.plan.order[0]?.lane
  const others =
    problem.hands.length > 1
      ? []
      : problem.chains
          .filter(({ lane, tasks, readyMs }) => lane !== first && tasks[0]?.block === 0 && readyMs <= 0)
          .flatMap(({ lane }) => beginningOn(problem, lane, plan))
  const chosen = inHand === null ? firstListed(planned.plan, others, problem) : planned.plan
  return {
    planned: { kind: 'plan', plan: chosen },
    otherwise: [{ lane: first ?? '', plan: planned.plan }, ...others]
      .filter((other) => other.plan !== chosen && other.lane !== chosen.order[0]?.lane)
      .map((other) => ({
        lane: other.lane,
        laterMs: Math.max(0, other.plan.finish - chosen.finish),
        // Sent elsewhere all the same: beginning there keeps no limit.
        misses: chosen.limits.kind === 'kept' && other.plan.order[0]?.lane !== other.lane
      })),
    late: chosen.limits.kind === 'missed' ? worstLateness(problem, chosen) : null,
    finish: times && finishTimes(problem, chosen.order, times, times.pace)
  }
}

interface Beginning {
  readonly lane: LaneId
  readonly plan: Plan
}

function beginningOn(problem: Problem, lane: LaneId, plan: Planning): readonly Beginning[] {
  const planned = plan(problem, { ...DEFAULTS, budget: DEFAULTS.budget * SHARE, firstOn: lane }, lane)
  return planned.kind === 'plan' ? [{ lane, plan: planned.plan }] : []
}

/** Of plans that are as good, the one that begins on the lane listed first: people expect the left before the right. */
function firstListed(best: Plan, others: readonly Beginning[], { chains }: Problem): Plan {
  const place = (plan: Plan) => chains.findIndex(({ lane }) => lane === plan.order[0]?.lane)
  const isAsGood = ({ finish, switches, limits }: Plan) =>
    finish === best.finish && switches === best.switches && limits.kind === best.limits.kind
  const plans = [best, ...others.map(({ plan }) => plan).filter(isAsGood)]
  return plans.reduce((chosen, plan) => (place(plan) < place(chosen) ? plan : chosen), best)
}
