/** Every fixed English text of the screens. Another language is another file of this shape; sentences of a run are in core/talk. */
import type { GuardFault, GuardName } from '../app/guards.ts'
import type { LaneMood } from '../app/lane-rows.ts'
import type { Part, ReadingKind } from '../core/procedure/procedure.ts'
import { chooseWordsEn } from './choose/words.en.ts'
import { count } from './count.en.ts'
import { damagedWordsEn } from './damaged/words.en.ts'

const GUARDS: Readonly<Record<GuardName, string>> = {
  ears: 'Ears',
  voice: 'Voice',
  alarm: 'Alarm sound',
  screen: 'Screen stays on',
  server: 'Server',
  clock: 'Clock',
  tabs: 'Other tabs'
}

const SHORT_GUARDS: Readonly<Record<GuardName, string>> = { ...GUARDS, alarm: 'Alarm', screen: 'Screen' }

/** What is wrong, short enough for the strip, and how a person can mend it. */
const FAULTS: Readonly<Record<GuardFault, { readonly why: string; readonly mend: string }>> = {
  'ears-off': { why: 'not listening', mend: 'Touch "Listen" before you speak, or answer by touch, key or pedal.' },
  'ears-unsupported': {
    why: 'this browser has none',
    mend: 'Use touch, keys or a pedal, or open this page in a browser that can listen.'
  },
  'ears-denied': {
    why: 'the microphone is not allowed',
    mend: 'Allow the microphone for this page in the browser\'s settings, then touch "Try the ears again".'
  },
  'ears-no-engine': {
    why: 'this browser hears but cannot understand',
    mend: 'Use touch, keys or a pedal, or open this page in a browser with speech recognition.'
  },
  'ears-no-microphone': {
    why: 'no microphone is found',
    mend: 'Plug a microphone in, then touch "Try the ears again".'
  },
  'ears-not-answering': {
    why: 'they do not answer',
    mend: 'Touch "Try the ears again". Until then use touch, keys or a pedal.'
  },
  'ears-other-tab': {
    why: 'another tab has them',
    mend: 'Close the other tab of this page. This one then takes over by itself.'
  },
  'ears-language-missing': {
    why: 'the language is not installed',
    mend: "Install the language for speech recognition in the browser's settings."
  },
  'voice-unsupported': {
    why: 'this browser cannot speak',
    mend: 'Read the screen: everything that would be said stands on it.'
  },
  'voice-no-voice': {
    why: 'no voice is installed',
    mend: 'Install a voice in the settings of this device. Until then read the screen.'
  },
  'voice-needs-tap': { why: 'locked until a touch', mend: 'Touch the screen once.' },
  'voice-not-answering': {
    why: 'it does not answer',
    mend: 'Check the loudspeaker and its volume. Until then read the screen.'
  },
  'voice-engine-failed': {
    why: 'it broke down',
    mend: 'Restart this device after the run. Until then read the screen.'
  },
  'voice-elsewhere': {
    why: 'another tab speaks',
    mend: 'Close the other tab of this page. This one then takes over by itself.'
  },
  'alarm-needs-tap': { why: 'locked until a touch', mend: 'Touch the screen once.' },
  'alarm-no-sound': {
    why: 'no sound comes out',
    mend: 'Check the loudspeaker and its volume. Watch the screen, and keep a kitchen timer beside it.'
  },
  'screen-off': { why: 'it may go dark', mend: 'Touch the screen once.' },
  'screen-unsupported': { why: 'it may go dark', mend: "Set the screen to stay on in this device's own settings." },
  'screen-refused': { why: 'it may go dark', mend: 'Plug the charger in and end the power saving mode.' },
  'screen-hidden': { why: 'this page is hidden', mend: 'Bring this page to the front.' },
  'server-away': {
    why: 'away',
    mend: 'Nothing is lost: this device keeps everything and sends it later. Keep the page open once the network is back.'
  },
  'server-failing': {
    why: 'keeps nothing just now',
    mend: 'Nothing is lost: this device keeps everything and sends it once the server is mended. Tell the supervisor what the server says.'
  },
  'server-rejecting': {
    why: 'refuses part of the record',
    mend: 'Tell the supervisor. This device keeps what the server did not take.'
  },
  'clock-unconfirmed': {
    why: 'moved forward',
    mend: 'Waits go on by the time that surely passed. They catch up as soon as the server confirms the time.'
  },
  'clock-moved': { why: 'was changed', mend: 'Waits do not follow it: they go on by the time that surely passed.' },
  'tabs-unnoticed': {
    why: 'would not be noticed',
    mend: 'Keep this page open in one tab only: two would both speak, listen and give alarms. A newer browser, or opening the page by https, mends it.'
  }
}

const MOODS: Readonly<Record<LaneMood, string>> = {
  hands: 'Hands here',
  alarm: 'Wait is over',
  waiting: 'Waits',
  ready: 'Ready',
  stopped: 'Stopped',
  late: 'Too late',
  'at-barrier': 'Others first',
  'tool-in-use': 'Tool in use',
  finished: 'Finished'
}

const CARE: Readonly<Record<Part['care'], string>> = { grease: 'Grease', dry: 'Keep dry', clean: 'Neither' }

const READINGS: Readonly<Record<ReadingKind, string>> = { strength: 'Strength', temperature: 'Temperature', ph: 'pH' }

export const screenWordsEn = {
  name: 'Sidecall',
  starting: 'Sidecall is starting.',
  labelFirst: "The product label, the maker's manual and local code come first.",
  back: 'Back',
  close: 'Close',
  cancel: 'Cancel',

  choose: chooseWordsEn,

  settings: {
    operator: 'Your name',
    site: 'Name of the shop',
    units: 'Units',
    metric: 'Metric (L, °C)',
    us: 'US (gal, °F)',
    distance: 'This screen is read from',
    distances: { hand: 'the hand, 0.6 m', near: 'the bench, 1.5 m', far: 'across the room, 2 m' }
  },

  damaged: damagedWordsEn,

  gather: {
    title: 'Gather',
    supplies: 'Supplies',
    solutions: 'Solutions',
    parts: 'Parts',
    tools: 'Shared tools',
    none: 'None listed.',
    perSide: 'for each side',
    care: (care: Part['care']) => CARE[care],
    pieces: (value: number) => `${value} ×`,
    who: 'Who is doing it?',
    whoMissing: 'Write your name first: the record says who did it.',
    start: 'Start',
    plan: 'The plan',
    planning: 'Working out the order.',
    planFault: 'No order can be planned: call the supervisor.',
    takes: (ms: number) => `About ${count(Math.max(1, Math.round(ms / 60_000)), 'minute', 'minutes')} for all of it.`,
    saves: (ms: number) => `${count(Math.round(ms / 60_000), 'minute', 'minutes')} less than one side after the other.`,
    savesNothing: 'One side after the other takes as long.',
    spread: (likely: number, sure: number) =>
      `Four times in five within ${Math.ceil(likely / 60_000)}, almost surely within ${Math.ceil(sure / 60_000)}.`,
    estimated: 'Estimated from the times that the author wrote down.',
    learned: (runs: number) => `Learned from ${count(runs, 'run', 'runs')} before.`,
    readyAt: 'It must be ready at',
    startBy: (time: string) => `Start by ${time}.`,
    tooLate: (ms: number) =>
      `Too late for that by ${count(Math.ceil(ms / 60_000), 'minute', 'minutes')}. Tell whoever opens.`
  },

  failure: {
    full: 'The storage of this device is full',
    unavailable: 'The storage of this device does not work',
    'newer-version': 'A newer version of this page has been open: reload it',
    corrupt: 'Part of what is kept on this device is damaged',
    storage: (what: string) => `${what}. It was not kept.`,
    procedureUnavailable: 'This procedure is not on this device, and the server cannot be reached.',
    runUnreadable:
      'The beginning of this run is damaged: nobody can go on with it. It is kept as it is; tell the supervisor.',
    notKept: 'NOT KEPT. Say it or press it again.'
  },

  run: {
    lanes: 'Lanes',
    mood: (mood: LaneMood) => MOODS[mood],
    then: (step: string) => `Then: ${step}`,
    next: (step: string) => `Next: ${step}`,
    before: (step: string) => `Finished here before: ${step}`,
    laneOver: 'Nothing left here.',
    atMost: 'go on within',
    ready: 'Ready',
    handsFree: 'Both hands are free',
    firstFree: (lane: string) => `${lane} needs you in`,
    heard: (words: string) => `Heard: ${words}`,
    listen: 'Listen'
  },

  act: {
    done: 'Done',
    yes: 'Yes',
    no: 'No',
    understood: 'I have taken this in',
    hold: (phrase: string) => `Hold down: ${phrase}`,
    holdHint: 'Hold it down until it is full.',
    enterNumber: 'Enter the number',
    record: 'Record',
    carryOn: 'Carry on',
    again: 'Say again',
    other: 'Other …',
    somethingElse: 'Something else'
  },

  number: {
    erase: 'Erase',
    minus: 'Minus',
    point: 'Point',
    empty: 'No number yet',
    expected: (value: number) => `There should be ${value}.`,
    pieces: 'pieces'
  },

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
    problem: 'A problem',
    words: 'Type words',
    crew: 'Who is at work',
    transcript: 'What was said',
    keys: 'Keys',
    guards: 'Ears and voice',
    endEarly: 'End early'
  },

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
  transcript: { title: 'What was said and heard', none: 'Nothing yet.', sidecall: 'Sidecall', operator: 'You' },

  keys: {
    title: 'Keys and pedals',
    rows: [
      ['Space, Enter, Page Down, →, ↓', 'Done. Held down: the whole phrase, a caution taken in, or yes.'],
      ['Page Up, ←, ↑', 'Say again. Held down at a question: no.'],
      ['Backspace', 'Go back'],
      ['Y, N', 'Yes, no'],
      ['0 to 9, point, Enter', 'A number that is asked for, then record it'],
      ['P', 'Hold on, carry on'],
      ['H', 'How long'],
      ['E', 'When it is all ready'],
      ['W, M, I', 'Why, tell me more, why on this side'],
      ['Q', 'Quiet'],
      ['Tab, then Enter', 'Everything else on the screen'],
      ['?', 'This list']
    ] as readonly (readonly [string, string])[],
    lane: (lane: string) => `Go to: ${lane}`,
    alarm: 'Any key answers an alarm.'
  },

  guards: {
    title: 'What watches over this run',
    name: (name: GuardName) => GUARDS[name],
    short: (name: GuardName) => SHORT_GUARDS[name],
    good: 'works',
    resting: 'rests for a moment',
    dead: 'dead',
    why: (fault: GuardFault) => FAULTS[fault].why,
    mend: (fault: GuardFault) => FAULTS[fault].mend,
    unsent: (value: number) => (value === 0 ? '' : `${count(value, 'entry is', 'entries are')} not sent yet.`),
    moved: (length: string) => `By ${length}.`,
    retryEars: 'Try the ears again',
    allWell: 'All is well'
  },

  alarm: { ago: 'ago' },
  needsTap: {
    title: 'Touch to go on',
    why: 'The page was loaded again. Sound, ears and screen start with your touch. No wait was lost.'
  },

  finished: {
    complete: 'The run is complete',
    ended: 'The run was ended early',
    duration: 'Time taken',
    operators: 'Carried out by',
    readings: 'Readings and counts',
    corrections: 'Put right',
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
  }
}

export type ScreenWords = typeof screenWordsEn
