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

/** How many of a tool a chain holds before each of its tasks, and at its end. */
export function holdingOf({ holds, tasks }: Pick<SegmentChain, 'holds' | 'tasks'>, tool: string): readonly number[] {
  const holding = [holds.filter((name) => name === tool).length]
  for (const { takes, frees } of tasks) {
    const held = (holding.at(-1) ?? 0) + takes.filter((name) => name === tool).length
    holding.push(Math.max(0, held - frees.filter((name) => name === tool).length))
  }
  return holding
}
