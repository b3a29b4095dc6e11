/** Where a pair of hands belongs: on its lane until that waits, then where something can be done. */
import type { Course } from '../procedure/course.ts'
import { BENCH, MACHINE, type LaneId } from '../procedure/procedure.ts'
import { phaseOf, type Phase } from '../run/phase.ts'
import { FIRST_HANDS, handsOf, type Run } from '../run/run.ts'

export type Assignment =
  /** Hands belong on this lane: a step is ready, or something must be put right there. */
  | { readonly kind: 'hands'; readonly lane: LaneId }
  /** Nothing to do until `until` (trusted epoch ms), when `lane` comes free. */
  | { readonly kind: 'wait'; readonly lane: LaneId; readonly until: number }
  /** Nothing to do until another pair of hands is done on `lane`. */
  | { readonly kind: 'stand-by'; readonly lane: LaneId; readonly hands: string }
  /** Nothing is left to do, or lanes stand in each other's way for a reason told elsewhere. */
  | { readonly kind: 'nothing' }

interface LanePhase {
  readonly lane: LaneId
  readonly phase: Phase
}

/** `device` speaks to the hands that are meant. Their own choice of lane comes first while there is something to do on it. */
export function whereNext(course: Course, run: Run, at: number, device = FIRST_HANDS): Assignment {
  const mine = handsOf(run, device)
  const phases = course.lanes.map((lane): LanePhase => ({ lane: lane.id, phase: phaseOf(course, run, lane.id, at) }))
  const resting = phases.find(({ lane, phase }) => lane === mine.focus && phase.kind === 'waiting')
  if (resting?.phase.kind === 'waiting' && mine.restUntil !== null && at < mine.restUntil) {
    return { kind: 'wait', lane: resting.lane, until: resting.phase.waiting.due }
  }
  const free = phases.filter(({ lane }) => takenBy(run, device, lane) === null)
  const workable = free.filter(({ phase }) => phase.kind === 'ready').map(({ lane }) => lane)
  const wrong = free.filter(({ phase }) => phase.kind === 'stopped' || phase.kind === 'late').map(({ lane }) => lane)
  const { focus } = mine
  if (focus !== null && (workable.includes(focus) || wrong.includes(focus))) return { kind: 'hands', lane: focus }
  const endedFirst = (lane: LaneId) => run.lanes[lane]?.waiting?.due ?? Number.POSITIVE_INFINITY
  const byUrgency = [...workable].sort((a, b) => rank(a) - rank(b) || endedFirst(a) - endedFirst(b))
  const lane = wrong[0] ?? byUrgency[0]
  return lane === undefined ? nothingToDo(run, device, phases) : { kind: 'hands', lane }
}

function nothingToDo(run: Run, device: string, phases: readonly LanePhase[]): Assignment {
  const waits = phases
    .flatMap(({ lane, phase }) => (phase.kind === 'waiting' ? [{ lane, until: phase.waiting.due }] : []))
    .sort((a, b) => a.until - b.until)
  const first = waits[0]
  if (first) return { kind: 'wait', ...first }
  for (const { lane, phase } of phases) {
    const other = takenBy(run, device, lane)
    if (other !== null && isWork(phase)) return { kind: 'stand-by', lane, hands: other }
  }
  return { kind: 'nothing' }
}

/**
 * The other pair of hands (its device) that a lane is in the charge of, or null. Where two were sent to one lane before
 * they knew of each other, the one that came first keeps it.
 */
export function takenBy(run: Run, device: string, lane: LaneId): string | null {
  const mine = handsOf(run, device)
  const onIt = run.crew.find(({ focus }) => focus === lane)
  return onIt === undefined || onIt === mine ? null : onIt.device
}

function isWork({ kind }: Phase): boolean {
  return kind === 'ready' || kind === 'stopped' || kind === 'late'
}

/** Sides before the bench: bench steps fill the waits. */
function rank(lane: LaneId): number {
  return lane === MACHINE ? 2 : lane === BENCH ? 1 : 0
}
