/**
 * From events to the state of a run. Total: an event that does not fit (a step already done on another device, say)
 * changes nothing and is set aside, so that replays never fail and nothing is lost.
 */
import { laneOf, type Course, type LaneStep } from '../procedure/course.ts'
import { compareEvents, type RunEvent, type StepRef } from './event.ts'
import { crewAfter, handsOn, interrupted, newHands } from './crew-changes.ts'
import { afterLoss } from './entries-lost.ts'
import { byItsClock, lagsIn, NO_LAGS, type Lags } from './lags.ts'
import { answered, attended, completed, corrected, laneChanged } from './lane-changes.ts'
import { phaseOf } from './phase.ts'
import { laneStateOf, roundOf, type LaneState, type Run } from './run.ts'

export function emptyRun(course: Course, id: string): Run {
  const lane: LaneState = { position: 0, passes: {}, waiting: null, stop: null, cautioned: false, last: null }
  return {
    id,
    status: 'not-started',
    from: null,
    startedAt: 0,
    endedAt: null,
    crew: [],
    lanes: Object.fromEntries(course.lanes.map(({ id: laneId }) => [laneId, lane])),
    held: {},
    progress: [],
    setAside: []
  }
}

/** Replays events in any order of arrival; same events, same state, on every device. */
export function replay(course: Course, id: string, events: readonly RunEvent[]): Run {
  const unique = new Map(events.map((event) => [event.id, event]))
  const ordered = [...unique.values()].sort(compareEvents)
  const lags = lagsIn(ordered)
  const takenBack: TakenBack = { by: new Set(), targets: new Set() }
  for (;;) {
    const replayed = replayUpToTakeBack(course, emptyRun(course, id), ordered, lags, takenBack)
    if ('status' in replayed) return replayed
    // The past has changed: once more from the start, without what was taken back.
    takenBack.by.add(replayed.id)
    takenBack.targets.add(replayed.cancels)
  }
}

interface TakenBack {
  /** Ids of the take-backs that count. */
  readonly by: Set<string>
  /** Ids of the events that they cancel. */
  readonly targets: Set<string>
}

type TakeBack = Extract<RunEvent, { type: 'taken-back' }>

/** The run at the end, or the first take-back that counts and has not been heeded yet. */
function replayUpToTakeBack(
  course: Course,
  empty: Run,
  ordered: readonly RunEvent[],
  lags: Lags,
  { by, targets }: TakenBack
): Run | TakeBack {
  let run = empty
  for (const event of ordered) {
    if (targets.has(event.id)) continue
    if (event.type === 'taken-back' && by.has(event.id)) run = withoutCautions(run)
    else if (event.type === 'taken-back' && mayTakeBack(run, event.cancels)) return event
    else run = reduce(course, run, event, lags)
  }
  return run
}

/** Only what counts can be taken back, and only while the run goes on. A bad answer never is: it is put right. */
function mayTakeBack(run: Run, cancels: string): boolean {
  if (run.status !== 'running' && run.status !== 'paused') return false
  const isStop = Object.values(run.lanes).some(
    ({ stop }) => stop && stop.kind !== 'problem' && stop.eventId === cancels
  )
  return !isStop && run.progress.some(({ id }) => id === cancels)
}

/** What follows is done again later, or by somebody else: its cautions are spoken again. */
function withoutCautions(run: Run): Run {
  const lanes = Object.entries(run.lanes).map(([id, lane]) => [id, { ...lane, cautioned: false }])
  return { ...run, lanes: Object.fromEntries(lanes) as Run['lanes'] }
}

/**
 * One event further. A `taken-back` or a `clock-caught-up` cannot be folded in (the past changes): callers replay
 * instead; `advance` does whichever is right. `lags` are those of the whole log.
 */
export function reduce(course: Course, run: Run, event: RunEvent, lags: Lags = NO_LAGS): Run {
  const next = byItsClock(run, lags, event.id, (seen) => apply(course, seen, event))
  return next ?? { ...run, setAside: [...run.setAside, event] }
}

/** State after new events, given all events so far including the new ones. */
export function advance(course: Course, run: Run, all: readonly RunEvent[], fresh: readonly RunEvent[]): Run {
  const known = all.slice(0, all.length - fresh.length)
  const inOrder = fresh.every((event, index) => {
    const before = fresh[index - 1]
    return !changesThePast(event) && (before === undefined || compareEvents(before, event) < 0)
  })
  const first = fresh[0]
  const afterAll = first === undefined || known.every((event) => compareEvents(event, first) < 0)
  return inOrder && afterAll
    ? fresh.reduce((state, event) => reduce(course, state, event), run)
    : replay(course, run.id, all)
}

function changesThePast({ type }: RunEvent): boolean {
  return type === 'taken-back' || type === 'clock-caught-up'
}

/** Such entries change nothing of the run, and come long after its end too. */
function isAboutRecord(event: RunEvent): event is Extract<RunEvent, { type: AboutRecord }> {
  return ABOUT_RECORD.includes(event.type)
}
const ABOUT_RECORD: readonly RunEvent['type'][] = [
  'noted',
  'part-replaced',
  'amended',
  'signed',
  'name-checked',
  'spoken'
] satisfies AboutRecord[]
type AboutRecord = 'noted' | 'part-replaced' | 'amended' | 'signed' | 'name-checked' | 'spoken'

function apply(course: Course, run: Run, event: RunEvent): Run | null {
  if (event.type === 'run-started') {
    if (run.status !== 'not-started') return null
    const { procedureId, procedureHash, site, machine, zone } = event
    const from = { procedureId, procedureHash, site, machine, zone }
    return { ...run, status: 'running', from, startedAt: event.at, crew: [newHands(event.device, event.by)] }
  }
  if (run.status === 'not-started') return null
  // Heeded from the beginning on, for as long as the lag that it tells of.
  if (event.type === 'clock-caught-up') return run
  const isGoing = run.status === 'running' || run.status === 'paused'
  if (event.type === 'part-replaced' && isGoing) return { ...run, progress: [...run.progress, event] }
  if (isAboutRecord(event)) return run
  if (run.status === 'finished' || run.status === 'abandoned') return event.type === 'refused' ? run : null
  switch (event.type) {
    case 'caution-acknowledged':
      return onStep(course, run, event, (lane) => ({
        ...handsOn(run, event.device, event.lane),
        lanes: laneChanged(run, event.lane, { ...lane, cautioned: true, waiting: attended(lane.waiting, event.at) })
      }))
    case 'step-done':
      return onStep(course, run, event, (lane, place) => (place.step.check ? null : completed(run, event, lane, place)))
    case 'check-answered':
      return onStep(course, run, event, (lane, place) => answered(course, run, event, lane, place))
    case 'wait-acknowledged': {
      const lane = laneStateOf(run, event.lane)
      if (!lane?.waiting || !sameStep(lane.waiting, event) || event.at < lane.waiting.due) return null
      return { ...run, lanes: laneChanged(run, event.lane, { ...lane, waiting: attended(lane.waiting, event.at) }) }
    }
    case 'problem-reported': {
      const lane = laneStateOf(run, event.lane)
      if (!lane || lane.stop) return null
      const stop = { kind: 'problem', at: event.at, eventId: event.id, text: event.text } as const
      return { ...run, lanes: laneChanged(run, event.lane, { ...lane, stop }), progress: [...run.progress, event] }
    }
    case 'corrected':
      return corrected(course, run, event)
    case 'lane-chosen':
    case 'lane-called':
      return laneStateOf(run, event.lane)
        ? handsOn(run, event.device, event.lane, { chosen: event.type === 'lane-chosen' })
        : null
    case 'rest-called':
      return laneStateOf(run, event.lane) ? handsOn(run, event.device, event.lane, { restUntil: event.until }) : null
    case 'joined':
    case 'left':
    case 'handed-over': {
      const crew = crewAfter(run.crew, event)
      return crew && { ...(event.type === 'handed-over' ? withoutCautions(run) : run), crew }
    }
    case 'paused':
      return run.status === 'running' ? { ...run, status: 'paused' } : null
    case 'resumed':
      return run.status === 'paused' ? { ...run, status: 'running', crew: run.crew.map(interrupted) } : null
    case 'run-finished':
      return everyLaneOver(course, run) ? { ...run, status: 'finished', endedAt: event.at } : null
    case 'run-abandoned':
      return { ...run, status: 'abandoned', endedAt: event.at }
    case 'taken-back':
      return null
    case 'entries-lost':
      return afterLoss(course, run, event)
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
  const lane = laneStateOf(run, event.lane)
  const place = laneOf(course, event.lane)?.steps[lane?.position ?? -1]
  if (!lane || !place || place.step.id !== event.step || roundOf(lane, event.step) !== event.round) return null
  return phaseOf(course, run, event.lane, event.at).kind === 'ready' ? change(lane, place) : null
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
