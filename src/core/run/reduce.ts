/**
 * From events to the state of a run. Total: an event that does not fit (a step already done on another device, say)
 * changes nothing and is set aside, so that replays never fail and nothing is lost.
 */
import { laneOf, type Course, type LaneStep } from '../procedure/course.ts'
import type { LaneId } from '../procedure/procedure.ts'
import { compareEvents, type RunEvent, type StepRef } from './event.ts'
import { phaseOf } from './phase.ts'
import { roundOf, type LaneState, type Run, type Waiting } from './run.ts'

export function emptyRun(course: Course, id: string): Run {
  const lane: LaneState = { position: 0, passes: {}, waiting: null, stop: null, cautioned: false, last: null }
  return {
    id,
    status: 'not-started',
    from: null,
    startedAt: 0,
    endedAt: null,
    operator: '',
    lanes: Object.fromEntries(course.lanes.map(({ id: laneId }) => [laneId, lane])),
    held: {},
    focus: null,
    progress: [],
    setAside: []
  }
}

/** Replays events in any order of arrival; same events, same state, on every device. */
export function replay(course: Course, id: string, events: readonly RunEvent[]): Run {
  const unique = new Map(events.map((event) => [event.id, event]))
  const ordered = [...unique.values()].sort(compareEvents)
  const cancelled = new Set(ordered.flatMap((event) => (event.type === 'taken-back' ? [event.cancels] : [])))
  return ordered
    .filter((event) => !cancelled.has(event.id))
    .reduce((run, event) => reduce(course, run, event), emptyRun(course, id))
}

/**
 * One event further. A `taken-back` cannot be folded in (the past changes): callers replay instead;
 * `advance` does whichever is right.
 */
export function reduce(course: Course, run: Run, event: RunEvent): Run {
  const next = apply(course, run, event)
  return next ?? { ...run, setAside: [...run.setAside, event] }
}

/** State after new events, given all events so far including the new ones. */
export function advance(course: Course, run: Run, all: readonly RunEvent[], fresh: readonly RunEvent[]): Run {
  const last = all.length > fresh.length ? all[all.length - fresh.length - 1] : undefined
  const inOrder = fresh.every((event, index) => {
    const before = index === 0 ? last : fresh[index - 1]
    return event.type !== 'taken-back' && (before === undefined || compareEvents(before, event) < 0)
  })
  return inOrder ? fresh.reduce((state, event) => reduce(course, state, event), run) : replay(course, run.id, all)
}

function apply(course: Course, run: Run, event: RunEvent): Run | null {
  if (event.type === 'run-started') {
    if (run.status !== 'not-started') return null
    const { procedureId, procedureHash, site, machine, zone } = event
    const from = { procedureId, procedureHash, site, machine, zone }
    return { ...run, status: 'running', from, startedAt: event.at, operator: event.by }
  }
  if (run.status === 'not-started') return null
  if (run.status === 'finished' || run.status === 'abandoned') return event.type === 'refused' ? run : null
  switch (event.type) {
    case 'caution-acknowledged':
      return onStep(course, run, event, (lane) => ({
        ...run,
        lanes: laneChanged(run, event.lane, { ...lane, cautioned: true, waiting: attended(lane.waiting, event.at) }),
        focus: event.lane
      }))
    case 'step-done':
      return onStep(course, run, event, (lane, place) => (place.step.check ? null : completed(run, event, lane, place)))
    case 'check-answered':
      return onStep(course, run, event, (lane, place) => answered(course, run, event, lane, place))
    case 'wait-acknowledged': {
      const lane = run.lanes[event.lane]
      if (!lane?.waiting || !sameStep(lane.waiting, event) || event.at < lane.waiting.due) return null
      return { ...run, lanes: laneChanged(run, event.lane, { ...lane, waiting: attended(lane.waiting, event.at) }) }
    }
    case 'problem-reported': {
      const lane = run.lanes[event.lane]
      if (!lane || lane.stop) return null
      const stop = { kind: 'problem', at: event.at, eventId: event.id, text: event.text } as const
      return { ...run, lanes: laneChanged(run, event.lane, { ...lane, stop }), progress: [...run.progress, event] }
    }
    case 'corrected':
      return corrected(course, run, event)
    case 'lane-chosen':
    case 'lane-called':
      return run.lanes[event.lane] ? { ...run, focus: event.lane } : null
    case 'paused':
      return run.status === 'running' ? { ...run, status: 'paused' } : null
    case 'resumed':
      return run.status === 'paused' ? { ...run, status: 'running' } : null
    case 'handed-over':
      return { ...run, operator: event.to }
    case 'run-finished':
      return everyLaneOver(course, run) ? { ...run, status: 'finished', endedAt: event.at } : null
    case 'run-abandoned':
      return { ...run, status: 'abandoned', endedAt: event.at }
    case 'taken-back':
      // What follows is done again later: its cautions are spoken again.
      return {
        ...run,
        lanes: Object.fromEntries(Object.entries(run.lanes).map(([id, lane]) => [id, { ...lane, cautioned: false }]))
      }
    case 'refused':
    case 'clock-moved':
      return run
  }
}

function onStep(
  course: Course,
  run: Run,
  event: StepRef & { readonly at: number },
  change: (lane: LaneState, place: LaneStep) => Run | null
): Run | null {
  const lane = run.lanes[event.lane]
  const place = laneOf(course, event.lane)?.steps[lane?.position ?? -1]
  if (!lane || !place || place.step.id !== event.step || roundOf(lane, event.step) !== event.round) return null
  return phaseOf(course, run, event.lane, event.at).kind === 'ready' ? change(lane, place) : null
}

function completed(
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
  return {
    ...run,
    lanes: laneChanged(run, event.lane, moved),
    held: heldAfter(run, event.lane, place),
    focus: event.lane,
    progress: [...run.progress, event]
  }
}

function answered(
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
      ...run,
      lanes: laneChanged(run, event.lane, again),
      held: heldAfter(run, event.lane, place),
      focus: event.lane,
      progress
    }
  }
  // The step came in time even if putting it right takes longer.
  const waiting = lane.waiting && { ...lane.waiting, latest: null }
  const stop = { kind: repeat ? 'too-many-rounds' : 'bad-answer', at: event.at, eventId: event.id } as const
  return {
    ...run,
    lanes: laneChanged(run, event.lane, {
      ...lane,
      passes: passed(lane, event.step),
      waiting,
      stop,
      cautioned: false,
      last
    }),
    focus: event.lane,
    progress
  }
}

function corrected(course: Course, run: Run, event: Extract<RunEvent, { type: 'corrected' }>): Run | null {
  const lane = run.lanes[event.lane]
  if (!lane) return null
  const late =
    phaseOf(course, { ...run, lanes: laneChanged(run, event.lane, { ...lane, stop: null }) }, event.lane, event.at)
      .kind === 'late'
  if (!lane.stop && !late) return null
  const progress = [...run.progress, event]
  if (event.redo !== null) {
    const back = laneOf(course, event.lane)?.steps.findIndex((place) => place.step.id === event.redo) ?? -1
    if (back < 0 || back >= lane.position) return null
    const again: LaneState = { ...lane, position: back, waiting: null, stop: null, cautioned: false }
    return { ...run, lanes: laneChanged(run, event.lane, again), focus: event.lane, progress }
  }
  // A corrected problem leaves a wait that is still running exactly as it was; only a missed maximum is settled here.
  const waiting = late && lane.waiting !== null ? { ...attended(lane.waiting, event.at), latest: null } : lane.waiting
  return { ...run, lanes: laneChanged(run, event.lane, { ...lane, stop: null, waiting }), focus: event.lane, progress }
}

function passed(lane: LaneState, step: string): LaneState['passes'] {
  return { ...lane.passes, [step]: (lane.passes[step] ?? 0) + 1 }
}

function attended<W extends Waiting | null>(waiting: W, at: number): W {
  return waiting && waiting.acknowledgedAt === null ? { ...waiting, acknowledgedAt: at } : waiting
}

function heldAfter(run: Run, lane: LaneId, place: LaneStep): Run['held'] {
  const held = { ...run.held }
  for (const tool of place.step.takes) held[tool] = [...(held[tool] ?? []), lane]
  for (const tool of place.step.frees) {
    const holders = held[tool] ?? []
    const index = holders.indexOf(lane)
    if (index >= 0) held[tool] = holders.filter((_, at) => at !== index)
  }
  return held
}

export function everyLaneOver(course: Course, run: Run): boolean {
  return course.lanes.every((lane) => {
    const state = run.lanes[lane.id]
    return (
      state !== undefined &&
      state.position >= lane.steps.length &&
      !state.stop &&
      (state.waiting === null || state.waiting.acknowledgedAt !== null)
    )
  })
}

function sameStep(a: StepRef, b: StepRef): boolean {
  return a.lane === b.lane && a.step === b.step && a.round === b.round
}

function laneChanged(run: Run, lane: LaneId, state: LaneState): Run['lanes'] {
  return { ...run.lanes, [lane]: state }
}
