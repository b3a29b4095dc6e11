/**
 * The fields that a record has to have, each with the pattern that asks for it. No rule seen binds a shop to exactly
 * this set: it is the union of what these patterns ask. The label and local code come first.
 */
import type { NoteField } from './note-fields.ts'
import type { RunRecord } from './run-record.ts'
import type { Status } from '../sanitizer/rule-set.ts'

export interface RecordField {
  readonly title: string
  /** Where it stands: a part of the record, or a note that somebody enters. */
  readonly from: { readonly part: keyof RunRecord } | { readonly note: NoteField }
  readonly source: string
  readonly status: Status
}

const CONTENT = '21 CFR 117.305 (record content)'
const REVIEWED = '21 CFR 112.161 (dated, signed, reviewed)'
const CIP = 'Wisconsin ATCP 70.14(2) (cleaning record: system, date and time, temperatures, exposure times)'
const EQUIPMENT_LOG = '21 CFR 111.35(b)(2) (equipment log)'
const SIGNATURE = '21 CFR 11.50(a) (name, date and time, meaning)'
const AUDIT = '21 CFR 11.10(e) (audit trail, old value not obscured)'
const HACCP = 'HACCP monitoring: what, how, who, corrective action, verification'
const CODEX = 'Codex CXC 1-1969: item, person, method, monitoring'
const CONTAINER = 'Product label and Food Code 4-501.114'

const read = (title: string, part: keyof RunRecord, source: string): RecordField => ({
  title,
  from: { part },
  source,
  status: 'read'
})
const recalled = (title: string, part: keyof RunRecord, source: string): RecordField => ({
  title,
  from: { part },
  source,
  status: 'memory'
})
const noted = (title: string, note: NoteField, source: string, status: Status = 'memory'): RecordField => ({
  title,
  from: { note },
  source,
  status
})

export const FIELD_SET: readonly RecordField[] = [
  read('Site', 'site', CONTENT),
  read('Machine', 'machine', CIP),
  read('Sides', 'sides', EQUIPMENT_LOG),
  recalled('Procedure and version', 'procedure', CODEX),
  read('Zone of the times', 'zone', CONTENT),
  read('Begun', 'startedAt', CONTENT),
  read('Ended', 'endedAt', CONTENT),
  read('Operators', 'operators', CONTENT),
  read('Hand-overs', 'crew', CONTENT),
  read('Steps', 'steps', EQUIPMENT_LOG),
  read('Waits and contact times', 'waits', CIP),
  read('Readings, counts and questions', 'checks', CIP),
  recalled('Corrective actions', 'corrections', HACCP),
  recalled('Attempts and refusals', 'refused', HACCP),
  recalled('Taken back', 'takenBack', AUDIT),
  read('Interruptions', 'interruptions', CONTENT),
  recalled('Problems', 'problems', HACCP),
  read('Parts replaced', 'replaced', EQUIPMENT_LOG),
  read('Solutions', 'solutions', CIP),
  noted('Lot of the mix', 'mix-lot', CONTENT, 'read'),
  noted('Mix opened', 'mix-opened', CONTENT, 'read'),
  noted('Mix to be discarded', 'mix-discard', CONTENT, 'read'),
  noted('Sanitizer product', 'product', CONTAINER),
  noted('Registration number on its label', 'registration', CONTAINER),
  noted('Percent on its label', 'label-percent', CONTAINER),
  noted('Volume of the batch', 'batch-volume', CONTAINER),
  noted('Dose', 'dose', CONTAINER),
  noted('Hours since the last full disassembly', 'since-disassembly', EQUIPMENT_LOG, 'read'),
  recalled('What was said and heard', 'said', 'No pattern asks for it: it shows what the operator was told'),
  recalled('Clocks of the devices', 'clocks', AUDIT),
  recalled('Clock notes', 'clockNotes', AUDIT),
  recalled('Entries lost', 'lost', AUDIT),
  recalled('Entries that came too late to count', 'setAside', AUDIT),
  recalled('Notes, with what they said before', 'notes', AUDIT),
  { title: 'Signatures', from: { part: 'signatures' }, source: SIGNATURE, status: 'secondary' },
  read('Review', 'review', REVIEWED)
]
