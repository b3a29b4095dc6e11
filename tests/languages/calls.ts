/** Arguments for the texts that take more than words and counts: every value of every union, so that no text is missed. */
import { READING_KINDS, SIGNAL_WORDS, WAIT_KINDS } from '../../src/core/procedure/procedure.ts'
import { ROLES } from '../../src/core/record/account-kinds.ts'
import { MEANINGS } from '../../src/core/run/event.ts'
import { SUBJECTS } from '../../src/core/sanitizer/rule-set.ts'
import { PLAIN_INTENTS } from '../../src/core/talk/intent.ts'
import type { Calls } from './walk-texts.ts'

const each = (values: readonly unknown[]) => values.map((value) => [value])
const COUNTS = each([1, 3])
const DETAIL = { left: '3 Xax', phrase: 'xux', question: 'Xex?', tool: 'Xox', others: 'Xyx' }
const REASONS = [
  ...['wait-not-over', 'needs-caution', 'needs-confirmation', 'needs-answer', 'needs-correction', 'lane-at-barrier'],
  ...['tool-in-use', 'lane-finished', 'paused', 'nothing-to-take-back', 'not-asked', 'unknown-lane'],
  ...['wrong-kind-of-answer', 'in-other-hands', 'only-hands', 'not-started', 'run-over']
]
const UNITS = ['[ppm]', 'Cel', '[degF]', '[pH]']
const CITED = { source: 'Xax', edition: 'Xux', status: 'memory' }
const OUT = { quantity: 'ppm', side: 'below', value: 12, bound: 50, by: 38, unit: null, action: 'add-product' }
const DEAF = ['unsupported', 'denied', 'no-engine', 'no-microphone', 'not-answering', 'other-tab', 'language-missing']
const GUARDS = ['ears', 'voice', 'alarm', 'screen', 'server', 'clock', 'tabs']
const FAULTS = [
  ...['ears-off', 'ears-unsupported', 'ears-denied', 'ears-no-engine', 'ears-no-microphone', 'ears-not-answering'],
  ...['ears-other-tab', 'ears-language-missing', 'voice-unsupported', 'voice-no-voice', 'voice-needs-tap'],
  ...[
    'voice-not-answering',
    'voice-engine-failed',
    'voice-elsewhere',
    'alarm-needs-tap',
    'alarm-no-sound',
    'screen-off'
  ],
  ...['screen-unsupported', 'screen-refused', 'screen-hidden', 'server-away', 'server-failing', 'server-rejecting'],
  ...['clock-unconfirmed', 'clock-moved', 'tabs-unnoticed']
]
const DEEDS = [
  ...['owner-made', 'owner-code-used', 'signed-in', 'sign-in-refused', 'signed-out', 'signed-out-everywhere'],
  ...['password-given-again', 'password-set', 'pin-set', 'pin-refused', 'person-added', 'person-changed'],
  ...['person-left', 'person-back', 'password-code-made', 'pairing-code-made', 'device-paired', 'device-removed'],
  ...['link-made', 'link-ended', 'link-opened', 'record-signed', 'procedure-published'],
  'procedure-put-away'
]
const DUE_STATES = [
  { kind: 'in-order', dueAt: null },
  { kind: 'in-order', dueAt: 1 },
  { kind: 'start-now' },
  { kind: 'under-way' },
  ...['overdue', 'never-done'].flatMap((kind) => ['overdue', 'must-not-be-used'].map((use) => ({ kind, use })))
]

export const CALLS: Calls = {
  'talk.list': [
    [['Xax'], 'and'],
    [['Xax', 'Xux', 'Xex'], 'and'],
    [['Xax', 'Xux'], 'or']
  ],
  'talk.wait': each(WAIT_KINDS),
  'talk.signal': each(SIGNAL_WORDS),
  'talk.phrase': each(PLAIN_INTENTS),
  'talk.duration': each([0, 1000, 61_000, 3_600_000, 7_260_000]),
  'talk.timeLeft': each([1000, 61_000, 5_000_000]),
  'talk.quantityIn': each(UNITS),
  'talk.limits': [
    [1, 2, 'Xax'],
    [1, null, 'Xax'],
    [null, 2, 'Xax']
  ],
  'talk.notJudged': [['Xax', 'Xux', ['Xex', 'Xox']]],
  'talk.brokenRule': [
    ['Xax', 'Xux', 'below', 'Xex'],
    ['Xax', 'Xux', 'above', 'Xex']
  ],
  'talk.correctionHint': [[['Xax', 'Xux']]],
  'talk.whichCorrection': [[['Xax', 'Xux']]],
  'talk.which': [[['Xax', 'Xux']]],
  'talk.whichPart': [[['Xax', 'Xux']], [['Xax', 'Xux', 'Xex', 'Xox', 'Xyx']]],
  'talk.help': [[['Xax', 'Xux']]],
  'talk.refusal': REASONS.map((reason) => [reason, 'Xix', DETAIL]),
  'screens.run.mood': each([
    ...['hands', 'alarm', 'waiting', 'ready', 'stopped', 'late', 'at-barrier', 'tool-in-use', 'finished']
  ]),
  'screens.guards.name': each(GUARDS),
  'screens.guards.short': each(GUARDS),
  'screens.guards.why': each(FAULTS),
  'screens.guards.unsent': each([0, 1, 3]),
  'panels.finished.reading': each(READING_KINDS),
  'panels.finished.unsent': COUNTS,
  'panels.finished.failing': [['Xax', 3]],
  'panels.mend': each(FAULTS),
  'gather.care': each(['grease', 'dry', 'clean']),
  'gather.wornAge': [
    [1, 3, true],
    [3, 1, false]
  ],
  'gather.soundCheck.state': each([
    ...['not-begun', 'speaking', 'listening', 'nothing-heard', 'mute'].map((kind) => ({ kind })),
    { kind: 'heard', words: 'Xax' },
    ...DEAF.map((reason) => ({ kind: 'deaf', reason }))
  ]),
  'gather.takes': each([60_000, 600_000]),
  'gather.saves': each([60_000, 600_000]),
  'gather.spread': [[60_000, 120_000]],
  'gather.learned': COUNTS,
  'gather.tooLate': each([60_000, 600_000]),
  'choose.unreadable': COUNTS,
  'choose.needsServer': each(['insecure', 'unsupported', 'failed']),
  'choose.sides': [[['Xax', 'Xux']]],
  'choose.about': each([60_000, 600_000]),
  'settings.screenSizeHow': each(['long', 'short']),
  'damaged.lost': COUNTS,
  'people.signedInAs': ROLES.map((role) => ['Xax', role]),
  'people.pinTyped': COUNTS,
  'people.pinOpen': each([true, false]),
  'people.noSecret': each(ROLES),
  'people.makeRole': each(ROLES),
  'people.linkHow': COUNTS,
  'people.deed': each(DEEDS),
  'practice.takes': [[1, 3]],
  'practice.notice': each([
    { kind: 'take' },
    ...['clipped', 'too-quiet', 'too-short', 'too-long'].map((fault) => ({ kind: 'fault', fault })),
    { kind: 'sounds-like', other: 'Xax' },
    ...['denied', 'no-microphone', 'not-kept', 'no-models'].map((why) => ({ kind: 'deaf', why }))
  ]),
  'practice.whereKept': each(['shared', 'to-be-shared', 'not-shared', 'to-be-withdrawn', 'refused']),
  'practice.whose': each(['', 'Xax']),
  'records.more': COUNTS,
  'records.showThese': COUNTS,
  'records.trends.title': COUNTS,
  'records.trends.cost': [['Xax', 'Xux', 'Xex', 3]],
  'records.refusedCount': COUNTS,
  'records.unsent': [[1, 'Xax']],
  'records.unsentOld': [[3, 'Xax']],
  'records.worn': [
    ['Xax', 'Xux', 'due'],
    ['Xax', 'Xux', 'soon']
  ],
  'records.unsentHere': COUNTS,
  'workshop.difference.seconds': each([5, 60, 61]),
  'workshop.difference.moved': each([null, 'Xax']),
  'workshop.difference.bounds': [
    [1, null, 'Xax'],
    [null, 3, 'Xax'],
    [1, 3, 'Xax']
  ],
  'workshop.difference.either': [[['Xax', 'Xux']]],
  'workshop.difference.together': [[['Xax', 'Xux']]],
  'workshop.language': each(['en', 'es']),
  'record.meaning': each(MEANINGS),
  'record.status': each(['open', 'complete', 'ended-early']),
  'record.review': each(['unsigned', 'signed', 'changed-since']),
  'record.via': each(['voice', 'touch', 'key', 'typed', 'app']),
  'record.crew': ['began', 'joined', 'left', 'handed-over'].flatMap((kind) =>
    [null, 'checked', 'chosen', 'typed'].map((known) => [kind, 'Xax', known])
  ),
  'record.because': each(['bad-answer', 'too-many-rounds', 'problem', 'late', 'entries-lost']),
  'record.wait': each(WAIT_KINDS),
  'record.waitResult': each(['kept', 'running', 'begun-anew', 'too-long']),
  'record.reason': each(REASONS),
  'record.note': each(['mix-lot', 'product', 'dose', 'remark']),
  'record.lane': each(['bench', 'machine']),
  'record.seconds': each([60]),
  'record.minutesSeconds': each([60]),
  'record.pieces': COUNTS,
  'record.lost': each([3]),
  'record.signed': [['Xax', 3]],
  'due.state': each(DUE_STATES.map((state) => ({ state }))),
  'sanitizer.subject': each(SUBJECTS),
  'sanitizer.source': [[CITED]],
  'sanitizer.out': [[OUT], [{ ...OUT, side: 'not-clear', action: 'rinse-again' }]],
  'sanitizer.missing': each([
    { kind: 'reading', quantity: 'temperature' },
    { kind: 'label', quantity: 'ppm' },
    { kind: 'limit', aspect: 'contact' }
  ]),
  'sanitizer.assumed': [[{ demand: { quantity: 'ph', max: 8 } }]],
  'sanitizer.implausible': [[{ quantity: 'temperature', value: 300, unit: 'C', from: 0, to: 120 }]],
  'sanitizer.ask': each([
    { kind: 'which-number', decimal: 1, thousands: 1000 },
    { kind: 'which-system', unit: 'gal', systems: ['us', 'imperial'] },
    { kind: 'which-unit', value: 5 },
    { kind: 'unknown-unit', unit: 'Xax' },
    { kind: 'negative', value: -5 },
    { kind: 'no-number' }
  ]),
  'sanitizer.outOfRange': [[5, 0, 100]],
  'sanitizer.measure': each(['tsp-us', 'cup-imperial', 'tablet', 'syringe']),
  'sanitizer.counted': each([1.5]),
  'sanitizer.dose': [['tbsp-us', 1.5]],
  'sanitizer.recipe': [['Xax', 3]],
  'sanitizer.makes': [
    [100, 100],
    [100, 120]
  ],
  'sanitizer.inMeasures': [[[]], [[['Xax', 100]]]],
  'sanitizer.guess': each([{ kind: 'convention' }, { kind: 'density', low: 1, high: 1.1 }]),
  'sanitizer.overCap': each([200]),
  'sanitizer.densityTooVague': [[200, 300]],
  'sanitizer.stockTooWeak': each([200]),
  'sanitizer.wrongMeasure': [[['tsp-us']]],
  'sanitizer.noStepFits': [
    ['tsp-us', 100, 200, []],
    ['tsp-us', 100, 200, ['ml']]
  ],
  'sanitizer.belowMinimum': [['chlorine', 50]],
  'sanitizer.compared': each([
    { verdict: 'weaker', overCap: false },
    { verdict: 'stronger', overCap: true },
    { verdict: 'as-published', overCap: false }
  ]),
  'sanitizer.gas': each(['chlorine', 'chloramine'])
}
