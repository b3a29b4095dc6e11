/**
 * A plan for several pairs of hands: the best of a few rules for who goes where next, each carried through to the end.
 * Not proved best; the bound tells how far off it can be at most.
 */
import type { LaneId } from '../procedure/procedure.ts'
import type { Chain, Problem, Task } from './problem.ts'
import type { Plan, PlannedTask, Planned } from './plan.ts'
import { holdingOf } from './segment.ts'

/** Lower goes first. */
export type Rule = (option: Option) => number

export interface Option {
  readonly lane: LaneId
  readonly start: number
  /** Nothing has to be waited for once the hands are there. */
  readonly isFree: boolean
  /** The whole rest of the chain, waits included, ms. */
  readonly tail: number
  readonly stays: boolean
  readonly latest: number
}

const LIMIT_SOON_MS = 120_000

const RULES: readonly Rule[] = [
  ({ start, tail, stays }) => start * 1e3 - (stays ? 1e9 : 0) - tail / 1e3,
  ({ start, tail }) => start * 1e3 - tail,
  ({ start, tail, latest }) => (latest - start < LIMIT_SOON_MS ? -1e12 + latest : start * 1e3 - tail),
  ({ start, stays, latest }) => (latest - start < LIMIT_SOON_MS ? -1e12 + latest : start * 1e3 - (stays ? 1e9 : 0))
]

export function manyHands(problem: Problem): Planned {
  const plans = RULES.flatMap((rule) => manyHandsBy(problem, rule) ?? [])
  const lateness = ({ limits }: Plan) => (limits.kind === 'missed' ? limits.lateMs : 0)
  const best = plans.sort((a, b) => lateness(a) - lateness(b) || a.finish - b.finish || a.switches - b.switches)[0]
  if (best) return { kind: 'plan', plan: best }
  const chain = [...problem.chains, problem.machine].find(({ tasks }) => tasks.some(({ takes }) => takes.length > 0))
  const step = chain?.tasks.find(({ takes }) => takes.length > 0)?.step ?? ''
  return { kind: 'fault', fault: { kind: 'tools-never-free', lane: chain?.lane ?? '', step } }
}

interface ChainState {
  readonly chain: Chain
  /** From each position on: the rest of the chain, waits included. */
  readonly tails: readonly number[]
  /** For each position: how many of each tool the chain holds before it. */
  readonly holding: Readonly<Record<string, readonly number[]>>
  position: number
  ready: number
  latest: number
  /** When each tool was last put back. */
  readonly freed: Record<string, number>
}

interface HandsState {
  free: number
  at: string | null
}

/** Serves one task after the other by a rule. Null when tools keep every chain from going on. */
export function manyHandsBy(problem: Problem, rule: Rule): (Plan & { readonly missed: number }) | null {
  const tools = Object.keys(problem.tools)
  const chains = problem.chains.map((chain) => stateOf(chain, tools))
  const machine = stateOf(problem.machine, tools)
  const hands: HandsState[] = problem.hands.map((at) => ({ free: 0, at }))
  const order: PlannedTask[] = []
  let switches = 0
  let lateMs = 0
  let missed = 0
  const total = [...problem.chains, problem.machine].reduce((sum, { tasks }) => sum + tasks.length, 0)
  while (order.length < total) {
    const options = [...chains, machine].flatMap((state) =>
      hands.flatMap((pair) => optionFor(problem, state, pair, chains, machine) ?? [])
    )
    const chosen = options.sort((a, b) => rule(a) - rule(b))[0]
    if (!chosen) return null
    const { state, pair, task, start, latest } = chosen
    const end = start + task.handsMs
    if (!chosen.stays && pair.at !== null) switches += 1
    lateMs = Math.max(lateMs, start - latest)
    if (start > latest) missed += 1
    const { step, round, minMs } = task
    order.push({ lane: state.chain.lane, step, round, start, end, hands: hands.indexOf(pair), minMs })
    state.position += 1
    for (const tool of task.frees) state.freed[tool] = end
    state.ready = end + minMs
    state.latest = task.maxMs === null ? Number.POSITIVE_INFINITY : end + task.maxMs
    if (state === machine) for (const other of chains) other.latest = Number.POSITIVE_INFINITY
    pair.free = end
    pair.at = state.chain.lane
  }
  const finish = Math.max(0, ...[...chains, machine].map(({ ready }) => ready), ...order.map(({ end }) => end))
  return {
    order: order.sort((a, b) => a.start - b.start),
    finish,
    lowerBound: Math.min(finish, lowerBound(problem)),
    switches,
    missed,
    limits: lateMs > 0 ? { kind: 'missed', lateMs, leastLateMs: 0 } : { kind: 'kept', withSlack: false }
  }
}

function optionFor(
  problem: Problem,
  state: ChainState,
  pair: HandsState,
  chains: readonly ChainState[],
  machine: ChainState
): (Option & { readonly state: ChainState; readonly pair: HandsState; readonly task: Task }) | null {
  const task = state.chain.tasks[state.position]
  if (!task) return null
  const machineTask = machine.chain.tasks[machine.position]
  if (state !== machine && machineTask && task.block > machineTask.block) return null
  if (
    state === machine &&
    chains.some(({ chain, position }) => (chain.tasks[position]?.block ?? Infinity) <= task.block)
  )
    return null
  const all = [...chains, machine]
  for (const tool of task.takes) {
    const held = all.reduce((sum, { holding, position }) => sum + (holding[tool]?.[position] ?? 0), 0)
    if (held >= (problem.tools[tool] ?? 0)) return null
  }
  const stays = pair.at === state.chain.lane
  const arrives = pair.free + (stays || pair.at === null ? 0 : problem.changeMs)
  const others = state === machine ? chains.map(({ ready }) => ready) : [machine.ready]
  // A tool that was put back is there from the end of that work on.
  const toolsBack = Math.max(0, ...task.takes.flatMap((tool) => all.map(({ freed }) => freed[tool] ?? 0)))
  const start = Math.max(arrives, state.ready, toolsBack, ...others)
  const latest = Math.min(state.latest, ...(state === machine ? chains.map((other) => other.latest) : []))
  const tail = state.tails[state.position] ?? 0
  return { state, pair, task, lane: state.chain.lane, start, isFree: start <= arrives, tail, stays, latest }
}

function stateOf(chain: Chain, tools: readonly string[]): ChainState {
  const tails = [...chain.tasks, null].map(() => 0)
  for (const [index, { handsMs, minMs }] of [...chain.tasks.entries()].reverse())
    tails[index] = (tails[index + 1] ?? 0) + handsMs + minMs
  const holding = Object.fromEntries(tools.map((tool) => [tool, holdingOf(chain, tool)]))
  const latest = chain.latestMs ?? Number.POSITIVE_INFINITY
  return { chain, tails, holding, position: 0, ready: chain.readyMs, latest, freed: {} }
}

/**
 * Between two whole-machine tasks: all work shared out evenly, or the longest lane with its waits. The lanes meet at each
 * of the machine's tasks, so the stretches add up.
 */
function lowerBound({ chains, machine, hands }: Problem): number {
  let bound = 0
  for (let number = 0; number <= machine.tasks.length; number += 1) {
    const before = machine.tasks[number - 1]
    const next = machine.tasks[number]
    const isIn = ({ block }: Task) =>
      (before === undefined || block > before.block) && (next === undefined || block <= next.block)
    const opens = before === undefined ? machine.readyMs : before.minMs
    const own = chains.map(({ tasks, readyMs }) =>
      tasks
        .filter(isIn)
        .reduce(
          (sum, { handsMs, minMs }) => sum + handsMs + minMs,
          before === undefined ? Math.max(opens, readyMs) : opens
        )
    )
    const work = chains.flatMap(({ tasks }) => tasks.filter(isIn)).reduce((sum, { handsMs }) => sum + handsMs, 0)
    bound += Math.max(opens, opens + work / hands.length, ...own) + (next?.handsMs ?? 0)
  }
  return bound
}
