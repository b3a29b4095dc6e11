/** Words of the practice screen. */
import type { PracticeNotice } from '../../app/practice-room.ts'
import { count } from '../count.ts'
import type { DeafPractice, FaultyTake, SharingNotice } from './notices.ts'

const FAULTS: Readonly<Record<FaultyTake, string>> = {
  clipped: 'Too loud for the microphone. Step back, or speak more softly.',
  'too-quiet': 'Too quiet beside the noise here. Come nearer, or speak up.',
  'too-short': 'That was too short. Say the whole phrase.',
  'too-long': 'That was too long. Say only this phrase, then pause.'
}
const DEAF: Readonly<Record<DeafPractice, string>> = {
  denied: 'This page may not use the microphone. Allow it in the browser, then try again.',
  'no-microphone': 'There is no microphone. Plug one in, then try again.',
  'not-kept': 'This device could not keep that. Free some space, then try again.',
  'no-models': 'The ears could not be loaded. They are fetched once, with the network there.'
}

const SHARING: Readonly<Record<SharingNotice, string>> = {
  shared: 'The server has it too. Forgetting it here forgets it there, and on the other tablets.',
  'not-shared': '',
  'to-be-shared': 'On its way to the server. Where that is away now, it is sent with the next run here.',
  'to-be-withdrawn': 'Being removed from the server. Where that is away now, it is removed with the next run here.',
  refused: 'The server did not take it.'
}

function notice(what: PracticeNotice): string {
  switch (what.kind) {
    case 'take':
      return 'Good.'
    case 'fault':
      return FAULTS[what.fault]
    case 'sounds-like':
      return `Kept, but it sounds like "${what.other}". Say it again, more clearly.`
    case 'deaf':
      return DEAF[what.why]
  }
}

export const practiceWordsEn = {
  title: 'Practise your voice',
  about:
    'Say each phrase three times, as you say it at work, with the machines running. Sidecall then hears you without the network. Only the shape of the sound is kept, never the sound.',
  whose: (operator: string) => (operator === '' ? 'For everybody on this device' : `For ${operator}`),
  say: (words: string) => `Say: ${words}`,
  level: 'How loud it is',
  takes: (count: number, wanted: number) => `${Math.min(count, wanted)} of ${wanted}`,
  start: 'Begin',
  stop: 'Stop',
  practise: (words: string) => `Practise: ${words}`,
  forget: (words: string) => `Forget: ${words}`,
  forgetShort: 'Forget',
  forgetAll: 'Forget all of this voice',
  forgetLearned: (takes: number) =>
    `Forget what was learned at work (${count(takes, 'take', 'takes')}), keep what was practised`,
  sharing: 'Where this voice is kept',
  shareNot: 'on this device only',
  share: 'on the server too, for the other tablets of this shop',
  whereKept: (how: SharingNotice) => SHARING[how],
  back: 'Back',
  notice
}

export type PracticeWords = typeof practiceWordsEn
