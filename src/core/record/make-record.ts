import type { Course } from '../procedure/course.ts'
import type { RunEvent } from '../run/event.ts'
import { recordedNotes, recordedParts, recordedSignatures } from './recorded-afterwards.ts'
import { clockNotes, deviceClocks, recordedCrew, recordedInterruptions, recordedSaid } from './recorded-people.ts'
import { recordedCorrections, recordedProblems, recordedRefusals } from './recorded-trouble.ts'
import { plannedTimes } from './planned-times.ts'
import { reviewOf } from './review.ts'
import { recordedWaits } from './recorded-waits.ts'
import { recordedChecks, recordedSteps } from './recorded-work.ts'
import { entryOf, type RunRecord } from './run-record.ts'
import { walk } from './walk.ts'

/** `events` of one run in any order, with the procedure version that it pinned. Null while nobody has begun it. */
export function makeRecord(course: Course, events: readonly RunEvent[]): RunRecord | null {
  const walked = walk(course, events)
  const { end, visits } = walked
  if (!end.from) return null
  const { site, machine, zone, procedureHash } = end.from
  const { id, title, example = false, sides, solutions } = course.procedure
  const ordered = visits.map(({ event }) => event)
  const crew = recordedCrew(visits)
  const plannedFor = plannedTimes(course, end.startedAt)
  const signatures = recordedSignatures(ordered)
  return {
    run: end.id,
    site,
    machine,
    zone,
    procedure: { id, version: procedureHash, title, isExample: example },
    sides,
    solutions: solutions.map(({ name, amount, directions }) => ({ name, amount, directions })),
    operators: [...new Set(crew.filter(({ kind }) => kind !== 'left').map(({ name }) => name))],
    startedAt: end.startedAt,
    endedAt: end.endedAt,
    status: end.status === 'finished' ? 'complete' : end.status === 'abandoned' ? 'ended-early' : 'open',
    endedBecause: ordered.findLast((event) => event.type === 'run-abandoned')?.reason ?? null,
    steps: recordedSteps(course, walked, plannedFor),
    waits: recordedWaits(course, walked, plannedFor),
    checks: recordedChecks(course, walked),
    corrections: recordedCorrections(visits),
    refused: recordedRefusals(visits),
    takenBack: visits.flatMap(({ event, counts }) =>
      event.type === 'taken-back' && counts === 'yes' ? [{ ...entryOf(event), cancels: event.cancels }] : []
    ),
    interruptions: recordedInterruptions(visits),
    crew,
    problems: recordedProblems(visits),
    notes: recordedNotes(ordered),
    replaced: recordedParts(course, visits),
    said: recordedSaid(ordered),
    clocks: deviceClocks(ordered),
    clockNotes: clockNotes(ordered),
    lost: ordered.flatMap((event) =>
      event.type === 'entries-lost' ? [{ ...entryOf(event), lost: Math.max(event.ids.length, event.gaps) }] : []
    ),
    setAside: end.setAside.map((event) => ({ ...entryOf(event), type: event.type })),
    signatures,
    review: reviewOf(signatures, ordered.length),
    entries: ordered.length
  }
}
