/** The run as a score: what each lane did, does and will probably do, laid along time. For the eye, never for a wait. */
import type { Outlook } from '../core/plan/outlook.ts'
import { isOver } from '../core/plan/send-to.ts'
import type { Course } from '../core/procedure/course.ts'
import type { LaneId } from '../core/procedure/procedure.ts'
import type { Run } from '../core/run/run.ts'
import { stepNamed } from '../core/talk/call-words.ts'

/** Hands-on work or a wait on a lane, from and to in trusted epoch ms. */
export interface Note {
  readonly lane: LaneId
  readonly kind: 'hands' | 'wait'
  readonly from: number
  readonly to: number
}

export interface Window {
  readonly at: number
  /** How far back and ahead to look, ms. */
  readonly back: number
  readonly ahead: number
}

export function scoreOf(
  course: Course,
  run: Run,
  outlook: Outlook | null,
  { at, back, ahead }: Window
): readonly Note[] {
  const notes = [...pastNotes(course, run, at), ...runningWaits(run, at), ...plannedNotes(run, outlook)]
  return notes.filter((note) => note.to > at - back && note.from < at + ahead)
}

function plannedNotes(run: Run, outlook: Outlook | null): readonly Note[] {
  const planned = outlook?.forecast.planned
  if (planned?.kind !== 'plan') return []
  const { at } = outlook ?? { at: 0 }
  return planned.plan.order.flatMap((task): readonly Note[] => {
    const { lane, start, end, minMs } = task
    if (isOver(run, task)) return []
    const isGoing = start === 0 && run.crew.some(({ focus }) => focus === lane)
    const hands: Note = { lane, kind: 'hands', from: isGoing ? begunAt(run, lane) : at + start, to: at + end }
    return minMs === 0 ? [hands] : [hands, { lane, kind: 'wait', from: at + end, to: at + end + minMs }]
  })
}

/** The step under the hands began when the last thing that counted ended, or the wait before it. */
function begunAt(run: Run, lane: LaneId): number {
  return Math.max(run.progress.at(-1)?.at ?? run.startedAt, run.lanes[lane]?.waiting?.due ?? 0)
}

function runningWaits(run: Run, at: number): readonly Note[] {
  return Object.values(run.lanes).flatMap(({ waiting }) =>
    waiting && waiting.due > at
      ? [{ lane: waiting.lane, kind: 'wait' as const, from: waiting.since, to: waiting.due }]
      : []
  )
}

/**
 * The log says when a step ended; that it took its stated time, or since the step before it, is the best guess.
 * Waits that still run are told apart.
 */
function pastNotes(course: Course, run: Run, at: number): readonly Note[] {
  let free = run.startedAt
  return run.progress.flatMap((event): readonly Note[] => {
    if (event.type !== 'step-done' && event.type !== 'check-answered') return []
    const step = stepNamed(course, event.lane, event.step)
    if (!step) return []
    const hands: Note = {
      lane: event.lane,
      kind: 'hands',
      from: Math.max(free, event.at - step.handsSeconds * 1000),
      to: event.at
    }
    free = event.at
    const due = event.at + (step.wait?.minSeconds ?? 0) * 1000
    const waited = step.wait !== null && (event.type === 'step-done' || event.good) && due <= at
    return waited ? [hands, { lane: event.lane, kind: 'wait', from: event.at, to: due }] : [hands]
  })
}
