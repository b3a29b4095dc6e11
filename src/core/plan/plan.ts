/** The order in which hands should serve the lanes: recomputed whenever something happens, never kept. */
import type { LaneId } from '../procedure/procedure.ts'
import { leastLate } from './least-late.ts'
import { manyHands } from './many-hands.ts'
import { faultIn, type Fault, type Problem } from './problem.ts'
import { searcher, type Found, type Searcher } from './search.ts'
import type { Segment } from './segment.ts'
import { stretchesOf, type Stretch } from './segments.ts'
import { timetable } from './timetable.ts'
import { toolOrder } from './tool-order.ts'

/** Hands-on work on a task, ms from now. */
export interface PlannedTask {
  readonly lane: LaneId
  readonly step: string
  readonly round: number
  readonly start: number
  readonly end: number
  /** Index of the pair of hands. */
  readonly hands: number
  /** The wait after it: how long at least. */
  readonly minMs: number
}

export interface Plan {
  readonly order: readonly PlannedTask[]
  /** When everything, the last wait included, is over; ms from now. */
  readonly finish: number
  /**
   * No order that begins where it was told to, and keeps its limits as well, is over earlier. The plan is known to be best
   * when the two are equal.
   */
  readonly lowerBound: number
  readonly switches: number
  /** What had to give way for there to be a plan at all. */
  readonly limits:
    | { readonly kind: 'kept'; readonly withSlack: boolean }
    /**
     * This order misses no maximum by more than `lateMs`, and no order all of them by less than `leastLateMs`: where the
     * two are equal no order could do better; where the latter is 0 one might keep them all.
     */
    | { readonly kind: 'missed'; readonly lateMs: number; readonly leastLateMs: number }
}

export type Planned = { readonly kind: 'plan'; readonly plan: Plan } | { readonly kind: 'fault'; readonly fault: Fault }

export interface PlanOptions {
  /** How many labels a stretch may cost. */
  readonly budget: number
  /** Kept before every maximum, where that can be; ms. */
  readonly slackMs: number
  /** The task that comes first is on this lane, even where another would end the run earlier, unless a maximum forbids it. */
  readonly firstOn: LaneId | null
}

export const DEFAULTS: PlanOptions = { budget: 8000, slackMs: 60_000, firstOn: null }

export function planFor(problem: Problem, options: PlanOptions = DEFAULTS): Planned {
  return planWith(problem, options, solve)
}

/** Plans again and again as a run goes on: stretches that have not changed since the last time are not searched again. */
export function planner(): (problem: Problem, options?: PlanOptions) => Planned {
  let remembered = new Map<string, Solved | null>()
  return (problem, options = DEFAULTS) => {
    const met: typeof remembered = new Map()
    const planned = planWith(problem, options, (stretch, given) => {
      const key = JSON.stringify([stretch.segment, stretch.lanes, given])
      const solved = remembered.has(key) ? (remembered.get(key) ?? null) : solve(stretch, given)
      met.set(key, solved)
      return solved
    })
    remembered = met
    return planned
  }
}

type Solve = (stretch: Stretch, options: PlanOptions) => Solved | null

function planWith(problem: Problem, options: PlanOptions, solve: Solve): Planned {
  const fault = faultIn(problem)
  if (fault) return { kind: 'fault', fault }
  if (problem.hands.length > 1) return manyHands(problem)
  const at = problem.hands[0] ?? null
  const stretches = stretchesOf(problem, at)
  const blocked = stretches.find((stretch) => stretch.blocked)?.blocked
  if (blocked) return { kind: 'fault', fault: { kind: 'tools-never-free', ...blocked } }

  let offset = 0
  let lowerBound = 0
  let switches = 0
  let withSlack = true
  let lateMs = 0
  let leastLateMs = 0
  const order: PlannedTask[] = []
  for (const [index, stretch] of stretches.entries()) {
    const solved = solve(stretch, index === 0 ? options : { ...options, firstOn: null })
    if (solved === null) return { kind: 'fault', fault: { kind: 'tools-never-free', ...firstStuck(stretch) } }
    const { found, segment, relaxMs } = solved
    const { served, finish } = timetable(segment, found.sequence, relaxMs)
    for (const { chain, task, start, end } of served) {
      const { step, round, minMs } = stretch.segment.chains[chain]?.tasks[task] ?? NO_TASK
      order.push({
        lane: stretch.lanes[chain] ?? '',
        step,
        round,
        start: offset + start,
        end: offset + end,
        hands: 0,
        minMs
      })
    }
    offset += finish
    lowerBound += found.lowerBound
    switches += found.switches
    withSlack &&= solved.withSlack
    leastLateMs = Math.max(leastLateMs, solved.leastRelaxMs, leastPastMachineLimit(stretch, found.lowerBound, relaxMs))
    lateMs = Math.max(lateMs, relaxMs, pastMachineLimit(stretch, finish))
    const task = stretch.machineTask
    if (task) {
      const { step, round, handsMs, minMs } = task
      order.push({ lane: problem.machine.lane, step, round, start: offset, end: offset + handsMs, hands: 0, minMs })
      offset += handsMs
      lowerBound += handsMs
    }
  }
  return {
    kind: 'plan',
    plan: {
      order,
      finish: offset,
      lowerBound,
      switches,
      limits: lateMs > 0 ? { kind: 'missed', lateMs, leastLateMs } : { kind: 'kept', withSlack }
    }
  }
}

/** The machine's own last maximum counts from before the stretch, ms. */
function pastMachineLimit({ machineLatestMs }: Stretch, finish: number): number {
  return machineLatestMs === null ? 0 : Math.max(0, finish - machineLatestMs)
}

/** An order that misses limits of the stretch by more than `relaxMs` might be over before `lowerBound`. */
function leastPastMachineLimit(stretch: Stretch, lowerBound: number, relaxMs: number): number {
  const past = pastMachineLimit(stretch, lowerBound)
  return hasMaxima(stretch.segment) ? Math.min(relaxMs, past) : past
}

const NO_TASK = { step: '', round: 1, minMs: 0 }

interface Solved {
  readonly found: Found
  /** As it was solved: with slack before its maxima, or without. */
  readonly segment: Segment
  readonly relaxMs: number
  /** No order misses its maxima by less. */
  readonly leastRelaxMs: number
  readonly withSlack: boolean
}

/** With slack, without, and then with as little lateness as there must be. Null: the tools stand in the way of any order. */
function solve({ segment, lanes }: Stretch, { budget, slackMs, firstOn }: PlanOptions): Solved | null {
  const searches = new Map<Segment, Searcher>()
  const searchOf = (tried: Segment) => {
    const known = searches.get(tried) ?? searcher(tried)
    searches.set(tried, known)
    return known
  }
  const slackened = slackMs > 0 && hasMaxima(segment) ? withSlackIn(segment, slackMs) : null
  const first = lanes.findIndex((lane, index) => lane === firstOn && hasTasks(segment, index))
  // What is said of the last way that is tried: anywhere first, without slack.
  let isImpossible = false
  for (const chain of first >= 0 ? [first, null] : [null]) {
    for (const tried of slackened ? [slackened, segment] : [segment]) {
      const result = searchOf(tried).find({ budget, relaxMs: 0, firstOn: chain })
      const withSlack = slackened === null || tried === slackened
      if (result.kind === 'found')
        return { found: result.found, segment: tried, relaxMs: 0, leastRelaxMs: 0, withSlack }
      isImpossible = result.kind === 'impossible'
    }
  }
  const late = leastLate(searchOf(segment), { budget, isImpossible })
  return late && { ...late, segment, withSlack: false }
}

function hasTasks(segment: Segment, chain: number): boolean {
  return (segment.chains[chain]?.tasks.length ?? 0) > 0
}

function hasMaxima({ chains }: Segment): boolean {
  return chains.some(({ tasks, latestMs }) => latestMs !== null || tasks.some(({ maxMs }) => maxMs !== null))
}

/** Every maximum comes so much earlier, a narrow one by half of the room that it leaves. */
function withSlackIn(segment: Segment, slackMs: number): Segment {
  const earlier = (most: number, least: number) => most - Math.min(slackMs, Math.max(0, (most - least) / 2))
  const chains = segment.chains.map((chain) => ({
    ...chain,
    latestMs: chain.latestMs === null ? null : earlier(chain.latestMs, Math.max(0, chain.readyMs)),
    tasks: chain.tasks.map((task) => ({
      ...task,
      maxMs: task.maxMs === null ? null : earlier(task.maxMs, task.minMs)
    }))
  }))
  return { ...segment, chains }
}

function firstStuck({ segment, lanes }: Stretch): { readonly lane: LaneId; readonly step: string } {
  const { chain, task } = toolOrder(segment).firstStuck() ?? { chain: 0, task: 0 }
  return { lane: lanes[chain] ?? '', step: segment.chains[chain]?.tasks[task]?.step ?? '' }
}
