/**
 * The planner's own picture of what is left to do, in milliseconds from now: chains of tasks on lanes, whole-machine
 * tasks that every lane joins, waits with a minimum and perhaps a maximum, tools that only so many lanes can hold.
 */
import type { LaneId } from '../procedure/procedure.ts'

export interface Task {
  readonly step: string
  readonly round: number
  /** Hands-on time. */
  readonly handsMs: number
  /** The wait after it: the next thing on the lane starts no earlier than the minimum, no later than the maximum. */
  readonly minMs: number
  readonly maxMs: number | null
  readonly takes: readonly string[]
  readonly frees: readonly string[]
  /** How many of the machine's tasks come before it. */
  readonly block: number
}

export interface Chain {
  readonly lane: LaneId
  readonly tasks: readonly Task[]
  /** A wait that runs already: the first task, or the machine's when there is none, starts from here ... */
  readonly readyMs: number
  /** ... to here. */
  readonly latestMs: number | null
  /** Tools that the lane holds now, once for each. */
  readonly holds: readonly string[]
}

export interface Problem {
  readonly chains: readonly Chain[]
  /** Whole-machine tasks: all chains finish their block and its waits first. */
  readonly machine: Chain
  readonly tools: Readonly<Record<string, number>>
  /** Time to go from one lane to another. */
  readonly changeMs: number
  /** Where each pair of hands is; null where that costs no change. */
  readonly hands: readonly (LaneId | null)[]
}

export type Fault =
  | { readonly kind: 'bad-time'; readonly lane: LaneId; readonly step: string }
  | { readonly kind: 'maximum-under-minimum'; readonly lane: LaneId; readonly step: string }
  | { readonly kind: 'unknown-tool'; readonly lane: LaneId; readonly step: string; readonly tool: string }
  /** No order lets this step have its tools, or none was found where looking through them all would take too long. */
  | { readonly kind: 'tools-never-free'; readonly lane: LaneId; readonly step: string }
  | { readonly kind: 'too-many-lanes'; readonly lanes: number }
  | { readonly kind: 'too-many-tasks'; readonly tasks: number }

const MOST_LANES = 40
export const MOST_TASKS = 5000

/** What makes a problem unfit for planning, or null. */
export function faultIn({ chains, machine, tools }: Problem): Fault | null {
  if (chains.length > MOST_LANES) return { kind: 'too-many-lanes', lanes: chains.length }
  const all = [...chains, machine]
  const tasks = all.reduce((sum, chain) => sum + chain.tasks.length, 0)
  if (tasks > MOST_TASKS) return { kind: 'too-many-tasks', tasks }
  for (const { lane, tasks: own } of all) {
    for (const { step, handsMs, minMs, maxMs, takes } of own) {
      if (!isTime(handsMs) || !isTime(minMs) || (maxMs !== null && !isTime(maxMs)))
        return { kind: 'bad-time', lane, step }
      if (maxMs !== null && maxMs < minMs) return { kind: 'maximum-under-minimum', lane, step }
      const tool = takes.find((name) => !Object.hasOwn(tools, name))
      if (tool !== undefined) return { kind: 'unknown-tool', lane, step, tool }
    }
  }
  return null
}

function isTime(ms: number): boolean {
  return Number.isFinite(ms) && ms >= 0
}
