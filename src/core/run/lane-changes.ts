/** How a lane changes when its step is done or answered, or when it is put right. Null: the event does not fit. */
import { laneOf, type Course, type LaneStep } from '../procedure/course.ts'
import { MACHINE, type LaneId } from '../procedure/procedure.ts'
import type { RunEvent, StepRef } from './event.ts'
import { handsWorked } from './crew-changes.ts'
import { phaseOf } from './phase.ts'
import { holdersOf, laneStateOf, roundOf, type LaneState, type Run, type Waiting } from './run.ts'

export function completed(
  run: Run,
  event: Extract<RunEvent, { type: 'step-done' | 'check-answered' }>,
  lane: LaneState,
  place: LaneStep
): Run | null {
  const cautionMissing = place.step.cautions.length > 0 && !lane.cautioned
  const confirmationMissing =
    place.step.confirm !== null && event.type === 'step-done' && event.confirmation === 'everyday'
  if (cautionMissing || confirmationMissing) return null
  const ref: StepRef = { lane: event.lane, step: event.step, round: event.round }
  const wait = place.step.wait
  const waiting: Waiting | null = wait
    ? {
        ...ref,
        kind: wait.kind,
        device: event.device,
        begunBy: event.id,
        since: event.at,
        due: event.at + wait.minSeconds * 1000,
        latest: wait.maxSeconds === null ? null : event.at + wait.maxSeconds * 1000,
        acknowledgedAt: null
      }
    : null
  const moved: LaneState = {
    position: lane.position + 1,
    passes: passed(lane, event.step),
    waiting,
    stop: null,
    cautioned: false,
    last: ref
  }
  const before = event.lane === MACHINE ? longestTimesKept(run, event.at) : run
  return {
    ...handsWorked(run, event.device, event.lane),
    lanes: laneChanged(before, event.lane, moved),
    held: heldAfter(run, event.lane, place),
    progress: [...run.progress, event]
  }
}

/** A whole-machine step was what followed on every lane; it was done in time, so nothing is late any more. */
function longestTimesKept(run: Run, at: number): Run {
  const lanes = Object.entries(run.lanes).map(([id, lane]) => [
    id,
    { ...lane, waiting: lane.waiting && { ...attended(lane.waiting, at), latest: null } }
  ])
  return { ...run, lanes: Object.fromEntries(lanes) as Run['lanes'] }
}

export function answered(
  course: Course,
  run: Run,
  event: Extract<RunEvent, { type: 'check-answered' }>,
  lane: LaneState,
  place: LaneStep
): Run | null {
  const { check, repeat, cautions } = place.step
  if (!check || check.kind !== event.answer.kind || (cautions.length > 0 && !lane.cautioned)) return null
  const round = roundOf(lane, event.step)
  const enough = !repeat || round >= repeat.atLeast
  if (event.good && enough) return completed(run, event, lane, place)
  const last: StepRef = { lane: event.lane, step: event.step, round: event.round }
  const progress = [...run.progress, event]
  if (repeat && (event.good || round < repeat.atMost)) {
    const from = laneOf(course, event.lane)?.steps.findIndex((other) => other.step.id === repeat.from) ?? 0
    const again: LaneState = {
      ...lane,
      position: from,
      passes: passed(lane, event.step),
      waiting: null,
      cautioned: false,
      last
    }
    return {
      ...handsWorked(run, event.device, event.lane),
      lanes: laneChanged(run, event.lane, again),
      held: heldAfter(run, event.lane, place),
      progress
    }
  }
  // The step came in time even if putting it right takes longer.
  const waiting = lane.waiting && { ...lane.waiting, latest: null }
  const stop = { kind: repeat ? 'too-many-rounds' : 'bad-answer', at: event.at, eventId: event.id } as const
  return {
    ...handsWorked(run, event.device, event.lane),
    lanes: laneChanged(run, event.lane, {
      ...lane,
      passes: passed(lane, event.step),
      waiting,
      stop,
      cautioned: false,
      last
    }),
    progress
  }
}

export function corrected(course: Course, run: Run, event: Extract<RunEvent, { type: 'corrected' }>): Run | null {
  const lane = laneStateOf(run, event.lane)
  if (!lane) return null
  // Having looked at a lane after entries were lost says nothing yet about a missed maximum.
  const late =
    lane.stop?.kind !== 'entries-lost' &&
    phaseOf(course, { ...run, lanes: laneChanged(run, event.lane, { ...lane, stop: null }) }, event.lane, event.at)
      .kind === 'late'
  if (!lane.stop && !late) return null
  const progress = [...run.progress, event]
  const worked = handsWorked(run, event.device, event.lane)
  if (event.redo !== null) {
    const back = laneOf(course, event.lane)?.steps.findIndex((place) => place.step.id === event.redo) ?? -1
    if (back < 0 || back >= lane.position) return null
    const again: LaneState = { ...lane, position: back, waiting: null, stop: null, cautioned: false }
    return { ...worked, lanes: laneChanged(run, event.lane, again), progress }
  }
  // A corrected problem leaves a wait that is still running exactly as it was; only a missed maximum is settled here.
  const waiting = late && lane.waiting !== null ? { ...attended(lane.waiting, event.at), latest: null } : lane.waiting
  return { ...worked, lanes: laneChanged(run, event.lane, { ...lane, stop: null, waiting }), progress }
}

function passed(lane: LaneState, step: string): LaneState['passes'] {
  return { ...lane.passes, [step]: roundOf(lane, step) }
}

export function attended<W extends Waiting | null>(waiting: W, at: number): W {
  return waiting && waiting.acknowledgedAt === null ? { ...waiting, acknowledgedAt: at } : waiting
}

function heldAfter(run: Run, lane: LaneId, place: LaneStep): Run['held'] {
  const held = { ...run.held }
  for (const tool of place.step.takes) held[tool] = [...holdersOf(held, tool), lane]
  for (const tool of place.step.frees) {
    const holders = holdersOf(held, tool)
    const index = holders.indexOf(lane)
    if (index >= 0) held[tool] = holders.filter((_, at) => at !== index)
  }
  return held
}

export function laneChanged(run: Run, lane: LaneId, state: LaneState): Run['lanes'] {
  return { ...run.lanes, [lane]: state }
}
