/**
 * One stretch between two whole-machine tasks. Everything meets at the machine's task, so the stretches are planned one
 * by one and the whole is still exact: an earlier meeting is never worse for what follows.
 */
import type { Task } from './problem.ts'

export interface SegmentChain {
  readonly tasks: readonly Task[]
  readonly readyMs: number
  /** Null: no limit. */
  readonly latestMs: number | null
  readonly holds: readonly string[]
}

export interface Segment {
  readonly chains: readonly SegmentChain[]
  /** Free places of each tool for these chains. */
  readonly tools: Readonly<Record<string, number>>
  readonly changeMs: number
  /** Index of the chain the hands are at, -1 at the machine; null where no chain costs a change. */
  readonly at: number | null
  /** The machine's task follows: the hands must come there, within every chain's last maximum. */
  readonly joins: boolean
}

/** Chain indices in the order they are served. */
export type Sequence = readonly number[]

/** How many of a tool a chain holds before its task at `position`. */
export function heldBy(chain: SegmentChain | undefined, position: number, tool: string): number {
  if (!chain) return 0
  let held = chain.holds.filter((name) => name === tool).length
  for (let index = 0; index < position; index += 1) {
    const task = chain.tasks[index]
    if (!task) break
    held += task.takes.filter((name) => name === tool).length
    held = Math.max(0, held - task.frees.filter((name) => name === tool).length)
  }
  return held
}
