/** What a lane can do at a moment. */
import { laneOf, type Course, type Lane, type LaneStep } from '../procedure/course.ts'
import { MACHINE, type LaneId } from '../procedure/procedure.ts'
import { holdersOf, type Run, type Stop, type Waiting } from './run.ts'

export type Phase =
  /** Hands can work on `place` now. */
  | { readonly kind: 'ready'; readonly place: LaneStep }
  /** The minimum has not passed yet. */
  | { readonly kind: 'waiting'; readonly waiting: Waiting }
  /** The maximum has passed: a corrective action is due first. */
  | { readonly kind: 'late'; readonly waiting: Waiting }
  | { readonly kind: 'stopped'; readonly stop: Stop }
  /** Stands at a whole-machine step until `behind` catch up (or, on the machine lane itself, until all lanes arrive). */
  | { readonly kind: 'at-barrier'; readonly behind: readonly LaneId[] }
  | {
      readonly kind: 'tool-in-use'
      readonly tool: string
      readonly holders: readonly LaneId[]
      readonly place: LaneStep
    }
  | { readonly kind: 'finished' }

/** `at` is trusted time in epoch ms. An ended wait counts as over whether or not its alarm was acknowledged. */
export function phaseOf(course: Course, run: Run, laneId: LaneId, at: number): Phase {
  const lane = laneOf(course, laneId)
  const state = run.lanes[laneId]
  if (!lane || !state) return { kind: 'finished' }
  if (state.stop) return { kind: 'stopped', stop: state.stop }
  if (state.waiting && at < state.waiting.due) return { kind: 'waiting', waiting: state.waiting }
  const place = lane.steps[state.position]
  if (state.waiting && isLate(course, run, lane, state.waiting, at)) return { kind: 'late', waiting: state.waiting }
  if (!place) return { kind: 'finished' }
  const behind = lanesBehind(course, run, laneId, place, at)
  if (behind.length > 0) return { kind: 'at-barrier', behind }
  for (const tool of place.step.takes) {
    const holders = holdersOf(run.held, tool)
    const count = course.procedure.tools.find((known) => known.id === tool)?.count ?? 1
    if (holders.length >= count) return { kind: 'tool-in-use', tool, holders, place }
  }
  return { kind: 'ready', place }
}

/**
 * Lanes that hold this one up at a whole-machine step. For the machine lane: every lane with steps of the same or an
 * earlier block to do, a wait still running or missed, or a stop. For any other lane: the machine lane, when its step
 * before this block is not done or its wait runs.
 */
function lanesBehind(course: Course, run: Run, laneId: LaneId, place: LaneStep, at: number): readonly LaneId[] {
  return course.lanes
    .filter((other) => other.id !== laneId && (laneId === MACHINE || other.id === MACHINE))
    .filter((other) => {
      const state = run.lanes[other.id]
      if (!state) return false
      const next = other.steps[state.position]
      const stepsLeft =
        next !== undefined && (laneId === MACHINE ? next.block <= place.block : next.block < place.block)
      if (stepsLeft) return true
      // A machine step done later than this block has been passed already; its wait binds only steps after it.
      const bindsWait = laneId === MACHINE || state.position === place.block
      const waitRuns =
        state.waiting !== null && bindsWait && (at < state.waiting.due || isLate(course, run, other, state.waiting, at))
      return waitRuns || (state.stop !== null && (laneId === MACHINE || state.position <= place.block))
    })
    .map((other) => other.id)
}

/**
 * A maximum limits the start of what follows on the lane, be it a whole-machine step, and only its end is told. Someone
 * who answered the alarm in time is taken to be at work on it, for at most twice its stated time.
 */
function isLate(course: Course, run: Run, lane: Lane, waiting: Waiting, at: number): boolean {
  const { latest, acknowledgedAt } = waiting
  if (latest === null) return false
  if (acknowledgedAt === null || acknowledgedAt > latest) return at > latest
  const following = nextOn(course, run, lane)
  return following !== null && at > latest + 2000 * following.step.handsSeconds
}

/** The next step that concerns a lane: its own, or the whole-machine step that comes before it. */
function nextOn(course: Course, run: Run, lane: Lane): LaneStep | null {
  const own = lane.steps[run.lanes[lane.id]?.position ?? lane.steps.length]
  const machine = laneOf(course, MACHINE)?.steps[run.lanes[MACHINE]?.position ?? 0]
  return machine && (own === undefined || own.block > machine.block) ? machine : (own ?? null)
}
