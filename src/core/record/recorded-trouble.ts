/** What went wrong in a run, and what was done about it. */
import type { Course } from '../procedure/course.ts'
import type { RunEvent } from '../run/event.ts'
import { entryOf, type CorrectionRow, type ProblemRow, type RefusedRow } from './run-record.ts'
import type { Visited } from './walk.ts'

type Corrected = Extract<RunEvent, { type: 'corrected' }>

export function recordedCorrections(visits: readonly Visited[]): readonly CorrectionRow[] {
  return visits.flatMap((visit, index): readonly CorrectionRow[] => {
    const { event, counts } = visit
    if (event.type !== 'corrected' || counts === 'set-aside') return []
    const stop = visit.before.lanes[event.lane]?.stop
    const bad = stop ? visits.find((other) => other.event.id === stop.eventId)?.event : undefined
    const answered = bad?.type === 'check-answered' ? bad : null
    return [
      {
        ...entryOf(event),
        lane: event.lane,
        action: event.action,
        because: stop?.kind ?? 'late',
        old: answered?.answer ?? null,
        anew: answered && anewAfter(visits.slice(index + 1), event, answered.step)
      }
    ]
  })
}

/** The first answer to the same question on that lane that came after; null when none did. */
function anewAfter(later: readonly Visited[], { lane }: Corrected, step: string): CorrectionRow['anew'] {
  for (const { event, counts } of later) {
    if (counts === 'yes' && event.type === 'check-answered' && event.lane === lane && event.step === step)
      return event.answer
  }
  return null
}

export function recordedRefusals(visits: readonly Visited[]): readonly RefusedRow[] {
  return visits.flatMap(({ event }): readonly RefusedRow[] => {
    if (event.type !== 'refused') return []
    const { command, lane, step, reason, remainingMs } = event
    const isAttempt = reason === 'wait-not-over'
    return [{ ...entryOf(event), command, lane, step, reason, remainingMs: isAttempt ? (remainingMs ?? 0) : null }]
  })
}

export function recordedProblems(visits: readonly Visited[]): readonly ProblemRow[] {
  return visits.flatMap(({ event, counts }): readonly ProblemRow[] =>
    event.type === 'problem-reported' && counts !== 'set-aside'
      ? [{ ...entryOf(event), lane: event.lane, text: event.text }]
      : []
  )
}

/** An attempt to cut a wait short, told apart from the other refusals. */
export function isAttempt(row: RefusedRow): row is RefusedRow & { readonly remainingMs: number } {
  return row.remainingMs !== null
}

export function partNamed(course: Course, part: string) {
  return course.procedure.parts.find(({ id }) => id === part)?.name ?? { en: part }
}
