/** What is left to do of a run, as the planner sees it. */
import { laneOf, type Course, type Lane, type LaneStep } from '../procedure/course.ts'
import { MACHINE, type LaneId, type Step } from '../procedure/procedure.ts'
import { phaseOf } from '../run/phase.ts'
import { emptyRun } from '../run/reduce.ts'
import { roundOf, type LaneState, type Run } from '../run/run.ts'
import { MOST_TASKS, type Chain, type Problem, type Task } from './problem.ts'

export interface PlanAssumptions {
  /** Expected hands-on time, ms; the stated one where nothing better is known. */
  readonly handsMs: (lane: LaneId, step: Step) => number
  readonly changeMs: number
}

/** Going to the other side and finding one's place there: a guess, common practice, no source. */
export const CHANGE_MS = 5000
/** Putting right what is wrong on a lane, where nobody knows how long it takes: a guess. */
const CORRECTION_MS = 60_000
/** A step that takes longer than expected is still about to end, for all one knows. */
const LEAST_LEFT = 0.15

export const AS_STATED: PlanAssumptions = { handsMs: (_, step) => step.handsSeconds * 1000, changeMs: CHANGE_MS }

/** `at` is trusted epoch ms; all times of the problem count from it. */
export function problemOf(course: Course, run: Run, at: number, assumptions: PlanAssumptions): Problem {
  const machineLane = laneOf(course, MACHINE)
  const machine = machineLane
    ? chainOf(course, run, machineLane, at, assumptions, (_place, index) => index)
    : { lane: MACHINE, tasks: [], readyMs: 0, latestMs: null, holds: [] }
  const machineSteps = machine.tasks.map(
    ({ step }) => machineLane?.steps.findIndex((place) => place.step.id === step) ?? 0
  )
  // A whole-machine step that is done again comes more than once: what stands before the next one waits for its last time.
  const blockOf = (place: LaneStep) => {
    const next = machineSteps.findIndex((index) => index >= place.block)
    return next < 0 ? machineSteps.length : next
  }
  const chains = course.lanes
    .filter(({ id }) => id !== MACHINE)
    .map((lane) => chainOf(course, run, lane, at, assumptions, blockOf))
  const tools = Object.fromEntries(course.procedure.tools.map(({ id, count }) => [id, count]))
  const crew = run.crew.length === 0 ? [null] : run.crew.map(({ focus }) => focus)
  return { chains, machine, tools, changeMs: assumptions.changeMs, hands: crew }
}

/** All of a procedure as a problem for one pair of hands that stands nowhere yet. */
export function wholeProblem(course: Course, assumptions: PlanAssumptions = AS_STATED): Problem {
  return problemOf(course, emptyRun(course, ''), 0, assumptions)
}

function chainOf(
  course: Course,
  run: Run,
  lane: Lane,
  at: number,
  { handsMs }: PlanAssumptions,
  blockOf: (place: LaneStep, index: number) => number
): Chain {
  const state = run.lanes[lane.id]
  const holds = Object.entries(run.held).flatMap(([tool, lanes]) =>
    lanes.filter((id) => id === lane.id).map(() => tool)
  )
  if (!state) return { lane: lane.id, tasks: [], readyMs: 0, latestMs: null, holds }
  const phase = phaseOf(course, run, lane.id, at)
  const isWrong = phase.kind === 'stopped' || phase.kind === 'late'
  const from = phase.kind === 'late' ? redoFrom(lane, state, phase.waiting.step) : state.position
  const correction: readonly Task[] = isWrong ? [correctionTask(lane, from, blockOf, stillRunning(state, at))] : []
  const rest = placesLeft(lane, state, from).map(({ place, round, waits }, index): Task => {
    const { step } = place
    return {
      step: step.id,
      round,
      handsMs: handsMs(lane.id, step),
      minMs: waits ? (step.wait?.minSeconds ?? 0) * 1000 : 0,
      maxMs: waits ? inMs(step.wait?.maxSeconds ?? null) : null,
      takes: step.takes,
      frees: step.frees,
      block: blockOf(place, index)
    }
  })
  return {
    lane: lane.id,
    tasks: underWay(run, lane.id, at, [...correction, ...rest]),
    holds,
    ...runningWait(state, at, isWrong)
  }
}

function inMs(seconds: number | null): number | null {
  return seconds === null ? null : seconds * 1000
}

function runningWait({ waiting }: LaneState, at: number, isWrong: boolean): Pick<Chain, 'readyMs' | 'latestMs'> {
  if (!waiting || isWrong) return { readyMs: 0, latestMs: null }
  // Whoever has answered the alarm in time is at work on it: there is nothing left to be late for.
  const isAttended = waiting.latest === null || (waiting.acknowledgedAt !== null && at > waiting.latest)
  return { readyMs: Math.max(0, waiting.due - at), latestMs: isAttended ? null : (waiting.latest ?? 0) - at }
}

function redoFrom(lane: Lane, state: LaneState, waitingStep: string): number {
  const late = lane.steps.find(({ step }) => step.id === waitingStep)?.step.wait?.late
  const back = late?.redo ? lane.steps.findIndex(({ step }) => step.id === late.redo) : -1
  return back >= 0 ? back : state.position
}

/** What of the lane's wait would run on behind a correction that begins now, ms. */
function stillRunning({ waiting }: LaneState, at: number): number {
  return waiting ? Math.max(0, waiting.due - at - CORRECTION_MS) : 0
}

function correctionTask(
  lane: Lane,
  from: number,
  blockOf: (place: LaneStep, index: number) => number,
  minMs: number
): Task {
  const place = lane.steps[from] ?? lane.steps.at(-1)
  return {
    step: place?.step.id ?? '',
    round: 0,
    handsMs: CORRECTION_MS,
    minMs,
    maxMs: null,
    takes: [],
    frees: [],
    block: place ? blockOf(place, 0) : 0
  }
}

interface PlaceLeft {
  readonly place: LaneStep
  readonly round: number
  /** Its wait follows: not where the round has to be gone through again. */
  readonly waits: boolean
}

/** Steps still to do, repeats taken at their least number of rounds; more than can be planned are not told one by one. */
function placesLeft(lane: Lane, state: LaneState, from: number): readonly PlaceLeft[] {
  const places: PlaceLeft[] = []
  const passes = new Map<string, number>()
  const add = (place: LaneStep) => {
    const { id } = place.step
    const round = (passes.get(id) ?? roundOf(state, id) - 1) + 1
    passes.set(id, round)
    places.push({ place, round, waits: round >= (place.step.repeat?.atLeast ?? 0) })
    return round
  }
  for (let index = from; index < lane.steps.length && places.length <= MOST_TASKS; index += 1) {
    const place = lane.steps[index]
    if (!place) break
    const { repeat } = place.step
    let round = add(place)
    if (!repeat) continue
    const first = lane.steps.findIndex(({ step }) => step.id === repeat.from)
    const again = first < 0 ? [] : lane.steps.slice(first, index)
    while (round < repeat.atLeast && places.length <= MOST_TASKS) {
      for (const earlier of again) add(earlier)
      round = add(place)
    }
  }
  return places
}

/** The step in hand has been worked on since the last thing that counted. */
function underWay(run: Run, lane: LaneId, at: number, tasks: readonly Task[]): readonly Task[] {
  const [first, ...rest] = tasks
  if (!first || !run.crew.some(({ focus }) => focus === lane)) return tasks
  const since = Math.max(run.progress.at(-1)?.at ?? run.startedAt, run.lanes[lane]?.waiting?.due ?? 0)
  const left = Math.max(first.handsMs * LEAST_LEFT, first.handsMs - Math.max(0, at - since))
  return [{ ...first, handsMs: Math.round(left) }, ...rest]
}
