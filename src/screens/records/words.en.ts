/** The English texts of the screens for records, which are loaded only when they are opened. */
import type { Meaning } from '../../core/run/event.ts'
import { count } from '../count.ts'

const MEANINGS: Readonly<Record<Meaning, string>> = {
  review: 'I have looked it through (review)',
  approval: 'I accept it (approval)',
  responsibility: 'I did this work (responsibility)',
  authorship: 'I wrote it (authorship)'
}

export const recordsScreenWordsEn = {
  title: 'Records',
  looking: 'Looking for records.',
  onlyDevice: (why: string) => `${why} These are the records of this device alone.`,
  away: 'The server cannot be reached.',
  failed: (why: string) => `The server answered with trouble: ${why}`,
  none: 'There are no records yet.',
  more: (runs: number) => `${count(runs, 'older record is', 'older records are')} on the server; export them by days.`,
  plannedAt: (times: string) => `planned ${times}`,
  onlyHere: 'on this device only',
  open: 'Open',
  begunBy: (who: string, when: string) => `${who}, begun ${when}`,
  machine: 'Machine',
  all: 'All',
  from: 'From day',
  to: 'To day',
  dayHint: 'Write a day such as 2026-11-28.',
  showThese: (runs: number) => `Read or print these ${runs}`,
  tooMany: (most: number) => `Choose a machine or days: at most ${most} can be shown together.`,
  lookBack: 'Look back',
  trends: {
    title: (runs: number) => `The last ${count(runs, 'run', 'runs')}`,
    readings: { '[ppm]': 'Strength, ppm', Cel: 'Temperature, °C', '[degF]': 'Temperature, °F', '[pH]': 'pH' },
    duration: 'Minutes from beginning to end',
    attempts: 'Attempts to cut a wait short',
    corrections: 'Corrective actions',
    steps: 'Where the time goes, the costliest step first',
    none: 'No run is over yet.',
    bad: 'A cross is out of limits.',
    told: (title: string, first: string, last: string, least: string, most: string) =>
      `${title}: from ${first} to ${last}, least ${least}, most ${most}.`,
    cost: (step: string, seconds: string, planned: string, runs: number) =>
      `${step} ${seconds}, planned ${planned} (${count(runs, 'run', 'runs')})`
  },
  takeAway: 'Take away',
  server: 'From the server, to be checked with npm run verify',
  device: 'Straight from this device',
  table: 'Table (CSV)',
  json: 'Evidence (JSON)',
  print: 'Print',
  back: 'Back to the list',
  refusedTitle: 'The server refuses these entries. They stay on this device.',
  refused: (id: string, why: string) => `${id}: ${why}`,
  refusedCount: (entries: number) => `${count(entries, 'entry is', 'entries are')} refused by the server. See Records.`,
  unsent: (entries: number, since: string) =>
    `${count(entries, 'entry has', 'entries have')} not reached the server since ${since}.`,
  unsentOld: (entries: number, since: string) =>
    `${count(entries, 'entry has', 'entries have')} not reached the server since ${since}. Bring the server back, or take the records away from this device now: they are nowhere else.`,
  today: 'What is due',
  calendar: 'Feed for a calendar',
  worn: (part: string, lane: string, worn: 'soon' | 'due') =>
    `${part}, ${lane}: ${worn === 'due' ? 'put in new ones' : 'have new ones at hand'}`,
  sign: 'Sign',
  signTitle: 'Sign this record',
  signer: 'Your name',
  signAs: (name: string) => `You sign as ${name}.`,
  signAway: 'The server cannot be reached. Records are signed there.',
  signNoOwner:
    'This shop has no owner yet, and records are signed by people who sign in. “People and devices” on the first screen says how it gets one.',
  signPeople: 'People and devices',
  meaning: 'What your signature means',
  meanings: MEANINGS,
  signHint: 'A signature covers what stands here now. Whatever comes later asks for another.',
  note: 'Add to the record',
  noteWhat: 'What',
  noteValue: 'Words',
  keep: 'Keep',
  amend: 'Correct an answer',
  amendWhich: 'Which answer was written down wrong',
  amendNow: 'What it should have been',
  amendReason: 'Why',
  amendHint: 'Both stay in the record. The run is not done anew by it.',
  notices: {
    signed: 'Signed. The signature stands at the end of the record.',
    kept: 'Kept. It stands in the record.',
    unsent: 'Some entries have not reached the server yet. Sign once they have.',
    notKept: (why: string) => `It could not be kept: ${why}`,
    notSigned: (why: string) => `Not signed. ${why}`
  },
  unsentHere: (entries: number) => `${count(entries, 'entry', 'entries')} of this record have not reached the server.`,
  example: 'An example, for an invented machine: no proof that any machine was cleaned.',
  serverAway: 'The server cannot be asked now: there may be more entries.',
  sections: {
    checks: 'Readings, counts and questions',
    waits: 'Waits',
    trouble: 'What went wrong, and what was done',
    notes: 'Notes and new parts',
    people: 'People, interruptions and clocks',
    steps: 'Steps',
    said: 'What was said and heard',
    signatures: 'Signatures',
    fields: 'Fields and where they come from'
  },
  columns: {
    time: 'Time',
    lane: 'Where',
    what: 'What',
    asked: 'Asked',
    actual: 'Found',
    result: 'Result',
    who: 'Who',
    said: 'Words'
  },
  saidHint: (lines: number) => `${count(lines, 'line', 'lines')}: open them to read, and to have them on paper`,
  saidTo: (operator: string) => `Sidecall, to ${operator}`,
  head: {
    site: 'Shop',
    machine: 'Machine',
    procedure: 'Procedure',
    version: 'Version',
    run: 'Run',
    begun: 'Begun',
    ended: 'Ended',
    zone: 'Times by the clock of',
    operators: 'Operators',
    status: 'Status',
    review: 'Review',
    sides: 'Sides',
    solutions: 'Solutions',
    entries: 'Entries'
  },
  notEnded: 'not yet',
  nothing: 'Nothing.',
  notEntered: 'not entered',
  inRecord: 'in this record',
  skew: (device: string, least: string, most: string) =>
    `Clock of device ${device}: ${least} to ${most} off trusted time`,
  byHand: 'By hand: name, date, meaning',
  labelFirst: 'The product label, the manual and local code come first.'
}

export type RecordsScreenWords = typeof recordsScreenWordsEn
