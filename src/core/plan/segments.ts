/** A problem cut at its whole-machine tasks. */
import type { LaneId } from '../procedure/procedure.ts'
import type { Chain, Problem, Task } from './problem.ts'
import { holdingOf, type Segment, type SegmentChain } from './segment.ts'

export interface Stretch {
  readonly segment: Segment
  /** Lane of each chain of the segment. */
  readonly lanes: readonly LaneId[]
  /** The whole-machine task that ends it; null for the last stretch. */
  readonly machineTask: Task | null
  /** The machine's task must start by then, ms from the start of the stretch: its own last maximum. */
  readonly machineLatestMs: number | null
  /** The step whose tools are held elsewhere for good, when its end cannot be reached. */
  readonly blocked: { readonly lane: LaneId; readonly step: string } | null
}

/** `at`: the lane one pair of hands is on when the first stretch begins; null costs no change. */
export function stretchesOf(problem: Problem, at: LaneId | null): readonly Stretch[] {
  const { chains, machine, changeMs } = problem
  const places = chains.map(() => 0)
  const held = [...chains, machine].map(({ holds }) => [...holds])
  const stretches: Stretch[] = []
  for (let index = 0; index <= machine.tasks.length; index += 1) {
    const machineTask = machine.tasks[index] ?? null
    const isFirst = index === 0
    const parts = chains.map((chain, number): SegmentChain => {
      const from = places[number] ?? 0
      const to = machineTask ? endOfBlock(chain, from, machineTask.block) : chain.tasks.length
      places[number] = to
      const machineWait = isFirst ? machine.readyMs : (machine.tasks[index - 1]?.minMs ?? 0)
      return {
        tasks: chain.tasks.slice(from, to),
        readyMs: Math.max(machineWait, isFirst ? chain.readyMs : 0),
        latestMs: isFirst ? chain.latestMs : null,
        holds: held[number] ?? []
      }
    })
    const machineHolds = held[chains.length] ?? []
    const segment: Segment = {
      chains: parts,
      tools: lessHeld(problem.tools, machineHolds),
      changeMs,
      at: isFirst ? placeOf(chains, at) : AT_MACHINE,
      joins: machineTask !== null
    }
    parts.forEach((part, number) => {
      held[number] = holdsAfter(part, part.tasks.length, Object.keys(problem.tools))
    })
    const isBlocked =
      machineTask !== null &&
      machineTask.takes.some((tool) => held.flat().filter((name) => name === tool).length >= (problem.tools[tool] ?? 0))
    if (machineTask) {
      const own: SegmentChain = { tasks: [machineTask], readyMs: 0, latestMs: null, holds: machineHolds }
      held[chains.length] = holdsAfter(own, 1, Object.keys(problem.tools))
    }
    stretches.push({
      segment,
      lanes: chains.map(({ lane }) => lane),
      machineTask,
      machineLatestMs: machineTask && (isFirst ? machine.latestMs : (machine.tasks[index - 1]?.maxMs ?? null)),
      blocked: isBlocked && machineTask ? { lane: machine.lane, step: machineTask.step } : null
    })
  }
  return stretches
}

const AT_MACHINE = -1

function placeOf(chains: readonly Chain[], at: LaneId | null): number | null {
  return at === null ? null : chains.findIndex(({ lane }) => lane === at)
}

function endOfBlock({ tasks }: Chain, from: number, block: number): number {
  let end = from
  while (end < tasks.length && (tasks[end]?.block ?? 0) <= block) end += 1
  return end
}

function holdsAfter(chain: SegmentChain, position: number, tools: readonly string[]): string[] {
  return tools.flatMap((tool) => Array.from({ length: holdingOf(chain, tool)[position] ?? 0 }, () => tool))
}

function lessHeld(tools: Problem['tools'], holds: readonly string[]): Record<string, number> {
  return Object.fromEntries(
    Object.entries(tools).map(([tool, count]) => [tool, count - holds.filter((name) => name === tool).length])
  )
}
