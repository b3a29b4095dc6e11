/** The run as a score: what each lane did, does and will probably do, laid along time. For the eye, never for a wait. */
import { project } from '../core/plan/projection.ts'
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

export interface Score {
  readonly notes: readonly Note[]
  /** When the run will probably be complete. */
  readonly finish: number
}

export interface Window {
  readonly at: number
  /** How far back and ahead to look, ms. */
  readonly back: number
  readonly ahead: number
}

export function scoreOf(course: Course, run: Run, { at, back, ahead }: Window): Score {
  const { segments, finish } = project(course, run, at)
  const going = segments.findIndex(({ kind, start }) => kind === 'hands' && start === at)
  const future = segments.map(({ lane, kind, start, end }, index): Note => {
    const from = index === going ? begunAt(run, end - start, at) : start
    return { lane, kind, from, to: index === going ? Math.max(end - (start - from), at) : end }
  })
  const shown = [...pastNotes(course, run, at), ...future].filter(
    (note) => note.to > at - back && note.from < at + ahead
  )
  return { notes: shown, finish }
}

/** The step under the hands began when the last one ended, or at most its stated time ago. */
function begunAt(run: Run, handsMs: number, at: number): number {
  const last = run.progress.at(-1)?.at ?? run.startedAt
  return Math.max(last, at - handsMs)
}

/**
 * The log says when a step ended; that it took its stated time, or since the step before it, is the best guess.
 * Waits that still run are left to the projection.
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
