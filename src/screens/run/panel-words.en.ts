/** English texts of the panels that open over the call; they are fetched with the panels. */
import type { GuardFault } from '../../app/guards.ts'
import type { ReadingKind } from '../../core/procedure/procedure.ts'
import { count } from '../count.ts'

/** How a person can mend what a guard reports. */
const MENDS: Readonly<Record<GuardFault, string>> = {
  'ears-off': 'Touch "Listen" before you speak, or answer by touch, key or pedal.',
  'ears-unsupported': 'Use touch, keys or a pedal, or open this page in a browser that can listen.',
  'ears-denied': 'Allow the microphone for this page in the browser\'s settings, then touch "Try the ears again".',
  'ears-no-engine': 'Use touch, keys or a pedal, or open this page in a browser with speech recognition.',
  'ears-no-microphone': 'Plug a microphone in, then touch "Try the ears again".',
  'ears-not-answering': 'Touch "Try the ears again". Until then use touch, keys or a pedal.',
  'ears-other-tab': 'Close the other tab of this page. This one then takes over by itself.',
  'ears-language-missing': "Install the language for speech recognition in the browser's settings.",
  'voice-unsupported': 'Read the screen: everything that would be said stands on it.',
  'voice-no-voice': 'Install a voice in the settings of this device. Until then read the screen.',
  'voice-needs-tap': 'Touch the screen once.',
  'voice-not-answering': 'Check the loudspeaker and its volume. Until then read the screen.',
  'voice-engine-failed': 'Restart this device after the run. Until then read the screen.',
  'voice-elsewhere': 'Close the other tab of this page. This one then takes over by itself.',
  'alarm-needs-tap': 'Touch the screen once.',
  'alarm-no-sound': 'Check the loudspeaker and its volume. Watch the screen, and keep a kitchen timer beside it.',
  'screen-off': 'Touch the screen once.',
  'screen-unsupported': "Set the screen to stay on in this device's own settings.",
  'screen-refused': 'Plug the charger in and end the power saving mode.',
  'screen-hidden': 'Bring this page to the front.',
  'server-away':
    'Nothing is lost: this device keeps everything and sends it later. Keep the page open once the network is back.',
  'server-failing':
    'Nothing is lost: this device keeps everything and sends it once the server is mended. Tell the supervisor what the server says.',
  'server-rejecting': 'Tell the supervisor. This device keeps what the server did not take.',
  'clock-unconfirmed':
    'Waits go on by the time that surely passed. They catch up as soon as the server confirms the time.',
  'clock-moved': 'Waits do not follow it: they go on by the time that surely passed.',
  'tabs-unnoticed':
    'Keep this page open in one tab only: two would both speak, listen and give alarms. A newer browser, or opening the page by https, mends it.'
}

const READINGS: Readonly<Record<ReadingKind, string>> = { strength: 'Strength', temperature: 'Temperature', ph: 'pH' }

export const panelWordsEn = {
  number: {
    erase: 'Erase',
    minus: 'Minus',
    point: 'Point',
    inUnit: (unit: string) => `In ${unit}`,
    empty: 'No number yet',
    expected: (value: number) => `There should be ${value}.`,
    pieces: 'pieces'
  },

  finished: {
    complete: 'The run is complete',
    ended: 'The run was ended early',
    duration: 'Time taken',
    operators: 'Carried out by',
    readings: 'Readings and counts',
    corrections: 'Put right',
    newParts: 'New parts',
    problems: 'Problems',
    refused: 'Attempts refused',
    takenBack: 'Taken back',
    lost: 'Entries lost on a device',
    none: 'none',
    good: 'within limits',
    bad: 'out of limits',
    reading: (kind: ReadingKind) => READINGS[kind],
    count: 'Count',
    sent: 'Everything has reached the server.',
    sending: 'Still sending to the server.',
    unsent: (value: number) =>
      `The server is away. ${count(value, 'entry waits', 'entries wait')} on this device: keep the page open once the network is back.`,
    failing: (why: string, value: number) =>
      `The server keeps nothing just now: ${why} ${count(value, 'entry waits', 'entries wait')} on this device. Keep the page open until the server is mended.`,
    rejecting: (why: string) => `The server refuses part of the record: ${why}`,
    back: 'Back to the list'
  },

  mend: (fault: GuardFault) => MENDS[fault],
  /** Which recogniser it is. */
  whoseEars: { browser: "(the browser's)", embedded: "(Sidecall's own)" },

  ways: {
    title: 'Other things',
    repeat: 'Say again',
    why: 'Why?',
    more: 'Tell me more',
    howLong: 'How long?',
    takeBack: 'Go back',
    pause: 'Hold on',
    resume: 'Carry on',
    quiet: 'Quiet',
    newPart: 'Part replaced',
    problem: 'A problem',
    words: 'Type words',
    crew: 'Who is at work',
    transcript: 'What was said',
    wipe: 'Wipe the screen',
    keys: 'Keys',
    guards: 'Ears and voice',
    endEarly: 'End early'
  },

  wipe: {
    title: 'Wipe now',
    why: 'The screen takes no touch. Voice, keys and pedal go on, and so do all waits.',
    left: (seconds: number) => `Touch comes back in ${seconds} s.`,
    end: 'Hold down to touch again now'
  },

  touch: {
    palm: 'That was a palm: not taken.',
    several: 'Two touches at once: neither is taken.',
    wiping: 'That was a wipe: not taken.',
    many: 'Too many touches at once. Dry the screen: Other, then Wipe the screen.'
  },

  undo: (lane: string, what: string) => `Go back: ${lane}. ${what}`,

  problem: {
    title: 'A problem',
    where: 'Where is it?',
    what: 'What is it?',
    report: 'Stop this lane'
  },

  correction: { title: 'Put it right', what: 'What was done about it?', record: 'Record what was done' },

  typed: { title: 'Type what you would say', field: 'Your words', send: 'Say it' },

  handOver: { title: 'Hand over', to: 'Who carries on?', record: 'Hand over' },

  crew: {
    title: 'Who is at work',
    thisDevice: 'this device',
    gone: (name: string) => `Hold down: ${name} has gone`,
    how: 'To work in two, open this run on a second device, touch "Go on", and join.',
    elsewhere: 'This run was begun on another device. Work along with it, or carry on in its place.',
    name: 'Your name',
    join: 'Work along',
    carryOn: 'Carry on in its place'
  },

  endEarly: {
    title: 'End this run early',
    warning: 'The record will say that the run was not completed. It cannot be taken up again.',
    reason: 'Why does it end?',
    hold: 'Hold down to end it'
  },

  transcript: {
    title: 'What was said and heard',
    none: 'Nothing yet.',
    sidecall: 'Sidecall',
    operator: 'You',
    notUnderstood: '(not understood)'
  },

  keys: {
    title: 'Keys and pedals',
    rows: [
      ['Space, Enter, Page Down, →, ↓', 'Done. Held down: the whole phrase, a caution taken in, or yes.'],
      ['Page Up, ←, ↑', 'Say again. Held down at a question: no.'],
      ['Backspace', 'Go back'],
      ['Y, N', 'Yes, no'],
      ['0 to 9, point, Enter', 'A number that is asked for, then record it'],
      ['U', 'The other scale, °C or °F, of a temperature that is asked for'],
      ['P', 'Hold on, carry on'],
      ['H', 'How long'],
      ['E', 'When it is all ready'],
      ['X', 'A new part was put in'],
      ['W, M, I', 'Why, tell me more, why on this side'],
      ['Q', 'Quiet'],
      ['Tab, then Enter', 'Everything else on the screen'],
      ['?', 'This list']
    ] as readonly (readonly [string, string])[],
    lane: (lane: string) => `Go to: ${lane}`,
    alarm: 'Any key answers an alarm.'
  }
}

export type PanelWords = typeof panelWordsEn
