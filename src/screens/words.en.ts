/** Every fixed English text of the screens. Another language is another file of this shape; sentences of a run are in core/talk. */
import type { GuardFault, GuardName } from '../app/guards.ts'
import type { LaneMood } from '../app/lane-rows.ts'
import { count } from './count.ts'

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

/** What is wrong, short enough for the strip. */
const FAULTS: Readonly<Record<GuardFault, string>> = {
  'ears-off': 'not listening',
  'ears-unsupported': 'this browser has none',
  'ears-denied': 'the microphone is not allowed',
  'ears-no-engine': 'this browser hears but cannot understand',
  'ears-no-microphone': 'no microphone is found',
  'ears-not-answering': 'they do not answer',
  'ears-other-tab': 'another tab has them',
  'ears-language-missing': 'the language is not installed',
  'voice-unsupported': 'this browser cannot speak',
  'voice-no-voice': 'no voice is installed',
  'voice-needs-tap': 'locked until a touch',
  'voice-not-answering': 'it does not answer',
  'voice-engine-failed': 'it broke down',
  'voice-elsewhere': 'another tab speaks',
  'alarm-needs-tap': 'locked until a touch',
  'alarm-no-sound': 'no sound comes out',
  'screen-off': 'it may go dark',
  'screen-unsupported': 'it may go dark',
  'screen-refused': 'it may go dark',
  'screen-hidden': 'this page is hidden',
  'server-away': 'away',
  'server-failing': 'keeps nothing just now',
  'server-rejecting': 'refuses part of the record',
  'clock-unconfirmed': 'moved forward',
  'clock-moved': 'was changed',
  'tabs-unnoticed': 'would not be noticed'
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

export const screenWordsEn = {
  name: 'Sidecall',
  starting: 'Sidecall is starting.',
  labelFirst: "The product label, the maker's manual and local code come first.",
  back: 'Back',
  close: 'Close',
  cancel: 'Cancel',
  /** In both languages: whoever looks for it may read only one. */
  language: 'Language / Idioma',

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
    somethingElse: 'Something else',
    putRight: 'Put it right'
  },

  guards: {
    title: 'What watches over this run',
    name: (name: GuardName) => GUARDS[name],
    short: (name: GuardName) => SHORT_GUARDS[name],
    good: 'works',
    resting: 'rests for a moment',
    waiting: 'waits for "hello sidecall"',
    dead: 'dead',
    why: (fault: GuardFault) => FAULTS[fault],
    unsent: (value: number) => (value === 0 ? '' : `${count(value, 'entry is', 'entries are')} not sent yet.`),
    moved: (length: string) => `By ${length}.`,
    retryEars: 'Try the ears again',
    allWell: 'All is well'
  },

  alarm: { ago: 'ago' },
  needsTap: {
    title: 'Touch to go on',
    why: 'The page was loaded again. Sound, ears and screen start with your touch. No wait was lost.'
  }
}

export type ScreenWords = typeof screenWordsEn
