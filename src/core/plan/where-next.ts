/** Where the one pair of hands goes: stay with a side until it waits, then go where something can be done. */
import type { Course } from '../procedure/course.ts'
import { BENCH, MACHINE, type LaneId } from '../procedure/procedure.ts'
import { phaseOf } from '../run/phase.ts'
import type { Run } from '../run/run.ts'

export type Assignment =
  /** Hands belong on this lane: a step is ready, or something must be put right there. */
  | { readonly kind: 'hands'; readonly lane: LaneId }
  /** Every lane waits; `lane` comes free first, at `until` (trusted epoch ms). */
  | { readonly kind: 'wait'; readonly lane: LaneId; readonly until: number }
  /** Nothing is left to do, or lanes stand in each other's way for a reason told elsewhere. */
  | { readonly kind: 'nothing' }

/** The operator's own choice of lane comes first while there is something to do on it. */
export function whereNext(course: Course, run: Run, at: number): Assignment {
  const phases = course.lanes.map((lane) => ({ lane: lane.id, phase: phaseOf(course, run, lane.id, at) }))
  const workable = phases.filter(({ phase }) => phase.kind === 'ready').map(({ lane }) => lane)
  const wrong = phases.filter(({ phase }) => phase.kind === 'stopped' || phase.kind === 'late').map(({ lane }) => lane)
  const focus = run.focus
  if (focus !== null && (workable.includes(focus) || wrong.includes(focus))) return { kind: 'hands', lane: focus }
  const endedFirst = (lane: LaneId) => run.lanes[lane]?.waiting?.due ?? Number.POSITIVE_INFINITY
  const byUrgency = [...workable].sort((a, b) => rank(a) - rank(b) || endedFirst(a) - endedFirst(b))
  const lane = wrong[0] ?? byUrgency[0]
  if (lane !== undefined) return { kind: 'hands', lane }
  const waits = phases
    .flatMap(({ lane: id, phase }) => (phase.kind === 'waiting' ? [{ lane: id, until: phase.waiting.due }] : []))
    .sort((a, b) => a.until - b.until)
  const first = waits[0]
  return first ? { kind: 'wait', ...first } : { kind: 'nothing' }
}

/** Sides before the bench: bench steps fill the waits. */
function rank(lane: LaneId): number {
  return lane === MACHINE ? 2 : lane === BENCH ? 1 : 0
}
