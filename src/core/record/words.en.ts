/** The English words of a record: on the screen, on paper and in files for spreadsheets. */
import type { Meaning, RefusalReason, RunEvent, Via } from '../run/event.ts'
import type { WaitKind } from '../procedure/procedure.ts'
import type { NoteField } from './note-fields.ts'
import type { CorrectionRow, CrewRow, NameKnown, RunRecord, WaitRow } from './run-record.ts'

const MEANINGS: Readonly<Record<Meaning, string>> = {
  authorship: 'authorship: I wrote this record',
  responsibility: 'responsibility: I did this work',
  review: 'review: I have looked this record through',
  approval: 'approval: I accept this record'
}
const STATUSES: Readonly<Record<RunRecord['status'], string>> = {
  open: 'not over',
  complete: 'complete',
  'ended-early': 'ended early'
}
const REVIEWS: Readonly<Record<RunRecord['review'], string>> = {
  unsigned: 'not reviewed',
  signed: 'reviewed and signed',
  'changed-since': 'changed since it was signed'
}
const VIAS: Readonly<Record<Via, string>> = {
  voice: 'by voice',
  touch: 'by touch',
  key: 'by key or pedal',
  typed: 'typed',
  app: 'by the program'
}
const CREW: Readonly<Record<CrewRow['kind'], string>> = {
  began: 'Began',
  joined: 'Joined',
  left: 'Left',
  'handed-over': 'Handed over to'
}
const KNOWN: Readonly<Record<NameKnown, string>> = {
  checked: 'PIN checked by the server',
  chosen: 'name chosen, not checked',
  typed: 'name typed, not checked'
}
const BECAUSE: Readonly<Record<CorrectionRow['because'], string>> = {
  'bad-answer': 'out of limits',
  'too-many-rounds': 'not good after the last round',
  problem: 'a problem was reported',
  late: 'a longest time was missed',
  'entries-lost': 'entries were lost'
}
const WAITS: Readonly<Record<WaitKind, string>> = {
  agitation: 'agitation',
  contact: 'contact time',
  soak: 'soak',
  drain: 'drain',
  dry: 'dry',
  freeze: 'freeze',
  settle: 'settle'
}
const WAIT_RESULTS: Readonly<Record<WaitRow['result'], string>> = {
  kept: 'kept',
  running: 'not over',
  'begun-anew': 'begun anew',
  'too-long': 'longer than allowed'
}
const REASONS: Readonly<Record<RefusalReason, string>> = {
  'wait-not-over': 'the wait was not over',
  'needs-caution': 'the caution was not acknowledged',
  'needs-confirmation': 'the whole phrase or a held key was needed',
  'needs-answer': 'an answer was needed',
  'needs-correction': 'a corrective action was needed',
  'lane-at-barrier': 'other lanes had to finish first',
  'tool-in-use': 'the tool was in use',
  'lane-finished': 'the lane was finished',
  paused: 'the run was paused',
  'nothing-to-take-back': 'there was nothing to take back',
  'not-asked': 'nobody had asked for it',
  'unknown-lane': 'there is no such lane',
  'wrong-kind-of-answer': 'it was another kind of answer',
  'in-other-hands': 'it was in other hands',
  'only-hands': 'they were the only hands',
  'not-started': 'the run had not begun',
  'run-over': 'the run was over'
}
const NOTES: Readonly<Record<NoteField | 'remark', string>> = {
  'mix-lot': 'Lot of the mix',
  'mix-opened': 'Mix opened',
  'mix-discard': 'Mix to be discarded',
  product: 'Sanitizer product',
  registration: 'Registration number',
  'label-percent': 'Percent on the label',
  'batch-volume': 'Volume of the batch',
  dose: 'Dose',
  'since-disassembly': 'Hours since the last full disassembly',
  remark: 'Remark'
}
const LANES: Readonly<Record<string, string>> = { bench: 'Bench', machine: 'Whole machine' }

export const recordWordsEn = {
  meaning: (meaning: Meaning) => MEANINGS[meaning],
  status: (status: RunRecord['status']) => STATUSES[status],
  review: (review: RunRecord['review']) => REVIEWS[review],
  via: (via: Via) => VIAS[via],
  crew: (kind: CrewRow['kind'], name: string, known: CrewRow['known']) =>
    known === null ? `${CREW[kind]} ${name}` : `${CREW[kind]} ${name} (${KNOWN[known]})`,
  because: (because: CorrectionRow['because']) => BECAUSE[because],
  wait: (kind: WaitKind) => WAITS[kind],
  waitResult: (result: WaitRow['result']) => WAIT_RESULTS[result],
  reason: (reason: RefusalReason) => REASONS[reason],
  note: (field: string) => (Object.hasOwn(NOTES, field) ? NOTES[field as NoteField] : field),
  lane: (lane: string) => LANES[lane] ?? lane,
  good: 'good',
  bad: 'out of limits',
  yes: 'yes',
  no: 'no',
  takenBack: 'taken back',
  setAside: (type: RunEvent['type']) => `came too late to count (${type})`,
  from: 'at least',
  upTo: 'at most',
  seconds: (seconds: number) => `${Math.round(seconds)} s`,
  minutesSeconds: (seconds: number) =>
    seconds < 60
      ? `${Math.round(seconds)} s`
      : `${Math.floor(Math.round(seconds) / 60)} min ${Math.round(seconds) % 60} s`,
  pieces: (pieces: number) => (pieces === 1 ? '1 piece' : `${pieces} pieces`),
  attempt: (left: string) => `tried to cut the wait short, ${left} were left`,
  refused: (command: string, reason: string) => `"${command}" was refused: ${reason}`,
  lost: (entries: number) => `${entries} entries could not be read any more`,
  clockMoved: (by: string) => `the clock of the device was moved by ${by}`,
  caughtUp: (by: string) => `the device caught up with the server by ${by}`,
  replaced: (name: string, pieces: string) => `${name}: ${pieces}`,
  amended: (was: string, now: string, reason: string) => `was ${was}, should have been ${now}: ${reason}`,
  changedNote: (value: string, was: string) => `${value} (before: ${was})`,
  correction: (action: string, because: string, old: string | null, anew: string | null) =>
    [action, because, old === null ? null : `was ${old}`, anew === null ? null : `then ${anew}`]
      .filter((part) => part !== null)
      .join('; '),
  ended: (reason: string) => `Ended early: ${reason}`,
  notUnderstood: '(not understood)',
  finished: 'The run was over',
  paused: (how: string) => `Interrupted for ${how}`,
  signed: (meaning: string, entries: number) => `${meaning} (${entries} entries)`,
  kinds: {
    step: 'step',
    wait: 'wait',
    reading: 'reading',
    count: 'count',
    question: 'question',
    correction: 'corrective action',
    attempt: 'attempt to cut a wait short',
    refusal: 'refusal',
    takenBack: 'taken back',
    interruption: 'interruption',
    crew: 'crew',
    problem: 'problem',
    note: 'note',
    part: 'part replaced',
    said: 'said',
    heard: 'heard',
    clock: 'clock',
    lost: 'entries lost',
    setAside: 'set aside',
    amendment: 'correction of an entry',
    end: 'end',
    signature: 'signature'
  }
}
export type RecordWords = typeof recordWordsEn
