/** English texts of the first screen; fetched with it. */
import type { CopyAbsence } from '../../app/page-updates.ts'
import { count } from '../count.ts'

/** Why no copy of the page is kept, and how a person can mend it. */
const NO_COPY: Readonly<Record<CopyAbsence, string>> = {
  insecure:
    'this address is not a safe connection. Open the page by https, or on the machine with the server by http://localhost.',
  unsupported: 'this browser keeps no copy of the page. Leave its private mode, or use another browser.',
  failed:
    'the copy of the page could not be kept. Make room on this device, and open the page once more with the server there.'
}

export const settingsWordsEn = {
  operator: 'Your name',
  site: 'Name of the shop',
  units: 'Units',
  metric: 'Metric (L, °C)',
  us: 'US (gal, °F)',
  distance: 'This screen is read from',
  distances: { hand: 'the hand, 0.6 m', near: 'the bench, 1.5 m', far: 'across the room, 2 m' },
  look: 'Colours',
  looks: { device: 'as on the device', light: 'light', dark: 'dark', strong: 'strongest contrast' },
  screenSize: 'Size of this screen',
  screenSizeHow: (side: 'long' | 'short') =>
    `Hold a payment card against the bar, its ${side} side level. Move the slider until both are equally long. Letters and buttons then have their right size.`,
  screenSizeUnknown: 'Not measured: sizes are those for most tablets.',
  screenSizeKnown: (mm: number) => `Measured: this page is ${mm} mm wide.`,
  screenSizeForget: 'Forget it',
  pedal: {
    title: 'Foot pedal, remote or switch',
    how: 'Most work at once. One that does not is taught here: touch Teach, then press its switch.',
    meanings: { done: 'Done, and held down: confirm', again: 'Say again, and held down: no', back: 'Go back' },
    usual: { done: 'Space, Enter, Page Down', again: 'Page Up', back: 'Backspace' },
    teach: 'Teach',
    forget: 'Forget',
    pressNow: 'Press the switch now; Escape leaves it as it was.',
    notThatOne: 'That key is needed for something else. Press another one.',
    howMany: 'Switches',
    several: 'two or more',
    single: (seconds: number) => `one only: held long, it is offered everything, ${seconds} s each`
  },
  attention: 'What is said counts',
  attentions: { none: 'always', word: 'only after "hello sidecall": for loud places' },
  room: 'The room',
  rooms: { usual: 'rings on little', echoing: 'rings on long: ears open later' }
}

export const chooseWordsEn = {
  title: 'What will you clean?',
  more: 'The rest of the day',
  records: 'Records, and what is due',
  workshop: 'Procedures: improve and publish',
  practice: 'Practise your voice',
  sums: 'Mix a batch, or judge a reading',
  people: 'People and devices',
  loading: 'Looking for procedures and runs that are not over.',
  none: 'There are no procedures yet. Put procedure files into the folder the server reads.',
  unreachable:
    'The server cannot be reached. Procedures and runs that are kept on this device work without it, and are sent later.',
  failed: (detail: string) => `The server answered with trouble: ${detail}`,
  again: 'Look again',
  unreadable: (runs: number) =>
    `${count(runs, 'run', 'runs')} on this device cannot be gone on with: the beginning is damaged, and the server does not have it. What is left is kept as it is; tell the supervisor. Begin anew from the list.`,
  mayBeCleared:
    'This browser may delete what is kept here when it needs room. Put this page on the home screen of the device, so that it does not.',
  startsAlone: 'This device also starts without the server.',
  newer: 'A newer version of this page is ready.',
  takeNewer: 'Take it now',
  newerHeldBack:
    'A newer version of this page is ready, but another tab has a run open. Take it when that run is over, or close every tab and open this page again.',
  needsServer: (reason: CopyAbsence) => `This device cannot start without the server: ${NO_COPY[reason]}`,
  example: 'Example',
  sides: (names: readonly string[]) => names.join(' · '),
  about: (ms: number) => `about ${count(Math.max(1, Math.round(ms / 60_000)), 'minute', 'minutes')}`,
  open: 'Not over yet',
  allOpen: (runs: number) => `Show all ${runs}`,
  goOn: 'Go on',
  startedBy: (name: string, when: string) => `${name}, begun ${when}`,
  lastSeen: (when: string) => `last seen ${when}`,
  faults: 'Procedure files that cannot be used',
  line: (line: number) => `Line ${line}`,
  mend: (how: string) => `Mend it: ${how}`,
  settings: 'Settings of this device'
}

export type SettingsWords = typeof settingsWordsEn
export type ChooseWords = typeof chooseWordsEn
