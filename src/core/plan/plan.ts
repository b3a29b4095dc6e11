/** The order in which hands should serve the lanes: recomputed whenever something happens, never kept. */
import type { LaneId } from '../procedure/procedure.ts'
import { manyHands } from './many-hands.ts'
import { faultIn, type Fault, type Problem } from './problem.ts'
import { searcher, type Found, type Searcher, type SearchOptions } from './search.ts'
import type { Segment } from './segment.ts'
import { stretchesOf, type Stretch } from './segments.ts'
import { timetable } from './timetable.ts'

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
  /** No order (that begins where it was told to) is over earlier. The plan is known to be best when the two are equal. */
  readonly lowerBound: number
  readonly switches: number
  /** What had to give way for there to be a plan at all. */
  readonly limits:
    | { readonly kind: 'kept'; readonly withSlack: boolean }
    /** No order keeps all maxima; this one misses none by more than `lateMs`, and no order could do better. */
    | { readonly kind: 'missed'; readonly lateMs: number }
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

/** Lateness is measured to the second. */
const LATE_STEP_MS = 1000
/** Finding the least lateness takes about so many searches; together they may cost as much as one. */
const LATE_TRIALS = 20
const MOST_LATE_MS = 24 * 3600_000

export function planFor(problem: Problem, options: PlanOptions = DEFAULTS): Planned {
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
    lateMs = Math.max(lateMs, relaxMs, stretch.machineLatestMs === null ? 0 : finish - stretch.machineLatestMs)
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
      limits: lateMs > 0 ? { kind: 'missed', lateMs } : { kind: 'kept', withSlack }
    }
  }
}

const NO_TASK = { step: '', round: 1, minMs: 0 }

interface Solved {
  readonly found: Found
  /** As it was solved: with slack before its maxima, or without. */
  readonly segment: Segment
  readonly relaxMs: number
  readonly withSlack: boolean
}

/** With slack, without, and then with as little lateness as there must be. Null: the tools stand in the way of any order. */
function solve({ segment, lanes }: Stretch, options: PlanOptions): Solved | null {
  const { budget, slackMs } = options
  const hasMaxima = segment.chains.some(
    ({ tasks, latestMs }) => latestMs !== null || tasks.some(({ maxMs }) => maxMs !== null)
  )
  const slackened = hasMaxima && slackMs > 0 ? withSlackIn(segment, slackMs) : null
  const searches = new Map<Segment, Searcher>()
  const attempt = (tried: Segment, relaxMs: number, withSlack: boolean, limits: SearchLimits): Solved | null => {
    const search = searches.get(tried) ?? searcher(tried)
    searches.set(tried, search)
    const result = search({ relaxMs, ...limits })
    return result.kind === 'found' ? { found: result.found, segment: tried, relaxMs, withSlack } : null
  }
  const kept = (firstOn: number | null): Solved | null =>
    (slackened && attempt(slackened, 0, true, { budget, firstOn })) ??
    attempt(segment, 0, !hasMaxima || slackMs === 0, { budget, firstOn })
  const first = lanes.findIndex((lane, index) => lane === options.firstOn && hasTasks(segment, index))
  const inTime = (first >= 0 ? kept(first) : null) ?? kept(null)
  if (inTime) return inTime
  const late = (relaxMs: number) =>
    attempt(segment, relaxMs, false, { budget: Math.ceil(budget / LATE_TRIALS), firstOn: null })
  if (!late(MOST_LATE_MS)) return null
  let [tooLittle, enough] = [0, 1]
  while (!late(enough * LATE_STEP_MS)) [tooLittle, enough] = [enough, enough * 2]
  while (enough - tooLittle > 1) {
    const middle = Math.floor((tooLittle + enough) / 2)
    if (late(middle * LATE_STEP_MS)) enough = middle
    else tooLittle = middle
  }
  return attempt(segment, enough * LATE_STEP_MS, false, { budget, firstOn: null })
}

type SearchLimits = Pick<SearchOptions, 'budget' | 'firstOn'>

function hasTasks(segment: Segment, chain: number): boolean {
  return (segment.chains[chain]?.tasks.length ?? 0) > 0
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
  const chain = segment.chains.findIndex(({ tasks }) => tasks.some(({ takes }) => takes.length > 0))
  const step = segment.chains[chain]?.tasks.find(({ takes }) => takes.length > 0)?.step ?? ''
  return { lane: lanes[chain] ?? '', step }
}
