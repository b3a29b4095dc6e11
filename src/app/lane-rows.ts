/** What each lane's row on the screen shows at a moment. */
import type { Course, Lane, LaneStep } from '../core/procedure/course.ts'
import { MACHINE, type LaneId, type Text, type WaitKind } from '../core/procedure/procedure.ts'
import { namesLaneInHand, type Call } from '../core/run/call.ts'
import { phaseOf } from '../core/run/phase.ts'
import type { Run } from '../core/run/run.ts'

export type LaneMood =
  /** The hands belong here now. */
  | 'hands'
  /** A wait is over and unanswered. */
  | 'alarm'
  | 'waiting'
  /** Could be worked on, once the hands are free. */
  | 'ready'
  | 'stopped'
  | 'late'
  /** Stands still until other lanes come to the same whole-machine step. */
  | 'at-barrier'
  | 'tool-in-use'
  | 'finished'

export interface LaneRow {
  readonly lane: LaneId
  readonly kind: Lane['kind']
  readonly name: Text
  readonly mood: LaneMood
  /** The call is for this lane. */
  readonly called: boolean
  /** Trusted epoch ms. `at-most`: the longest time runs; the next step must begin before it is over. */
  readonly timer: { readonly kind: 'at-least' | 'at-most'; readonly wait: WaitKind; readonly until: number } | null
  /** The step after what is being done or waited for. */
  readonly next: Text | null
  readonly done: number
  readonly total: number
}

/** Rows of the lanes that have steps, in the course's order; the machine's only when something of its own goes on there. */
export function laneRows(course: Course, run: Run, call: Call, at: number): readonly LaneRow[] {
  return course.lanes
    .filter((lane) => lane.steps.length > 0)
    .map((lane) => rowOf(course, run, call, at, lane))
    .filter((row) => row.lane !== MACHINE || row.timer !== null || row.mood === 'stopped' || row.mood === 'late')
}

function rowOf(course: Course, run: Run, call: Call, at: number, lane: Lane): LaneRow {
  const state = run.lanes[lane.id]
  const position = state?.position ?? 0
  const waiting = state?.waiting ?? null
  const mood = moodOf(course, run, call, at, lane.id)
  const called = isCalled(call, lane.id)
  const until = waiting === null ? null : at < waiting.due ? waiting.due : waiting.latest
  const running = waiting !== null && until !== null && at < until
  return {
    lane: lane.id,
    kind: lane.kind,
    name: lane.name,
    mood,
    called,
    timer: running ? { kind: at < waiting.due ? 'at-least' : 'at-most', wait: waiting.kind, until } : null,
    next: nextAfter(lane.steps, mood === 'hands' ? position + 1 : position),
    done: position,
    total: lane.steps.length
  }
}

function moodOf(course: Course, run: Run, call: Call, at: number, lane: LaneId): LaneMood {
  const called = isCalled(call, lane)
  if (called && call.kind === 'alarm') return 'alarm'
  const phase = phaseOf(course, run, lane, at)
  if (phase.kind === 'stopped' || phase.kind === 'late') return phase.kind
  if (called && (call.kind === 'step' || call.kind === 'caution')) return 'hands'
  const waiting = run.lanes[lane]?.waiting
  if (waiting && waiting.acknowledgedAt === null && at >= waiting.due) return 'alarm'
  return phase.kind
}

/** Where all wait, the call names the lane that comes free first; nobody is needed there yet. */
export function isCalled(call: Call, lane: LaneId): boolean {
  return namesLaneInHand(call) && call.lane === lane
}

function nextAfter(steps: readonly LaneStep[], position: number): Text | null {
  return steps[position]?.step.say ?? null
}

/** Two rows that show the same. */
export function sameRow(a: LaneRow, b: LaneRow): boolean {
  return (
    a.lane === b.lane &&
    a.mood === b.mood &&
    a.called === b.called &&
    a.done === b.done &&
    a.next === b.next &&
    a.timer?.until === b.timer?.until &&
    a.timer?.kind === b.timer?.kind
  )
}
