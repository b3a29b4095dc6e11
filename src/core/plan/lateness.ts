/** Where a plan that cannot keep every maximum misses one. */
import type { LaneId } from '../procedure/procedure.ts'
import type { Plan } from './plan.ts'
import type { Chain, Problem } from './problem.ts'

export interface Late {
  readonly lane: LaneId
  readonly step: string
  readonly round: number
  readonly lateMs: number
}

interface Progress {
  readonly chain: Chain
  position: number
  latest: number
}

/** The step that begins furthest past its maximum; null when every one is kept. */
export function worstLateness(problem: Problem, plan: Plan): Late | null {
  const begin = (chain: Chain): Progress => ({ chain, position: 0, latest: chain.latestMs ?? Number.POSITIVE_INFINITY })
  const sides = problem.chains.map(begin)
  const machine = begin(problem.machine)
  let worst: Late | null = null
  for (const { lane, step, round, start, end } of plan.order) {
    const own = lane === machine.chain.lane ? machine : sides.find(({ chain }) => chain.lane === lane)
    if (!own) continue
    const latest = Math.min(own.latest, ...(own === machine ? sides.map((side) => side.latest) : []))
    if (start - latest > (worst?.lateMs ?? 0)) worst = { lane, step, round, lateMs: start - latest }
    const task = own.chain.tasks[own.position]
    own.position += 1
    own.latest = task?.maxMs === null || task === undefined ? Number.POSITIVE_INFINITY : end + task.maxMs
    // The whole machine's step comes after the waits of every lane.
    if (own === machine) for (const side of sides) side.latest = Number.POSITIVE_INFINITY
  }
  return worst
}
