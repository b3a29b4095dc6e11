/** What was entered about a run besides its steps: notes, new parts, and who has signed for it. */
import type { Course } from '../procedure/course.ts'
import type { RunEvent } from '../run/event.ts'
import { coversAll } from './review.ts'
import { REMARK } from './note-fields.ts'
import { partNamed } from './recorded-trouble.ts'
import type { Visited } from './walk.ts'
import { entryOf, type NoteRow, type ReplacedRow, type SignatureRow } from './run-record.ts'

export function recordedNotes(events: readonly RunEvent[]): readonly NoteRow[] {
  const said = new Map<string, string>()
  return events.flatMap((event): readonly NoteRow[] => {
    if (event.type !== 'noted') return []
    const { field, value } = event
    const was = field === REMARK ? null : (said.get(field) ?? null)
    said.set(field, value)
    return [{ ...entryOf(event), field, value, was }]
  })
}

export function recordedParts(course: Course, visits: readonly Visited[]): readonly ReplacedRow[] {
  return visits.flatMap(({ event, counts }): readonly ReplacedRow[] => {
    if (event.type !== 'part-replaced' || counts !== 'yes') return []
    const { part, lane, pieces } = event
    return [{ ...entryOf(event), part, name: partNamed(course, part), lane, pieces }]
  })
}

/** `events` in the agreed order. */
export function recordedSignatures(events: readonly RunEvent[]): readonly SignatureRow[] {
  const signed = events.filter((event) => event.type === 'signed')
  const others = events.length - signed.length
  return signed.map((event, index): SignatureRow => {
    const { meaning, entries, head } = event
    return { ...entryOf(event), meaning, entries, head, coversAll: coversAll(entries, index, others) }
  })
}
