/** English words the operator may use. Two-word phrases come first: they are heard far better. */
import type { ReadingUnit } from '../procedure/procedure.ts'
import type { NumberStep, PlainIntent } from './intent.ts'
import { numberWordsEn } from './number-words.en.ts'
import { parseNumberEn } from './numbers.en.ts'

export interface Vocabulary {
  readonly phrases: Readonly<Record<PlainIntent, readonly string[]>>
  /** While a number is asked for; the one that is heard best first. */
  readonly steps: Readonly<Record<NumberStep, readonly string[]>>
  /** In loud places one of these comes first; our own ears listen for the first. */
  readonly attention: readonly string[]
  /** Words that could mean two things: they get a question. */
  readonly ambiguous: Readonly<Record<string, readonly PlainIntent[]>>
  /** Words that may stand in front of a phrase or behind it without changing it: "right now" is no side. */
  readonly filler: { readonly before: readonly string[]; readonly after: readonly string[] }
  /** What people put in front of a number that they were asked for. */
  readonly beforeNumber: readonly string[]
  /** And behind it, where it is no unit: "eleven off". */
  readonly afterNumber: readonly string[]
  /** Ways to name a lane; `$` is its name. */
  readonly lanePatterns: readonly string[]
  /** Other forms that a side's name takes in them, besides itself. */
  readonly sideForms: (name: string) => readonly string[]
  readonly bench: readonly string[]
  readonly machine: readonly string[]
  /** Units as they are heard behind a number, the longer of two with one end first. */
  readonly units: readonly (readonly [heard: string, unit: ReadingUnit])[]
  /** Null when the words are not wholly a number; never a guess. */
  readonly number: (words: readonly string[]) => number | null
  /** A numeral as words: "Line 1" may come as "line one". */
  readonly numerals: (numeral: string) => string
}

export const vocabularyEn: Vocabulary = {
  phrases: {
    done: ['all done', 'done', "that's done", 'step done', 'finished', "i'm done", 'it is done'],
    next: ['next step', 'next', 'next one', 'go on'],
    repeat: ['say again', 'repeat', 'say that again', 'repeat that', 'again please', 'come again'],
    'take-back': ['go back', 'take it back', 'take that back', 'undo', 'undo that'],
    pause: ['hold on', 'wait', 'pause', 'wait a moment', 'one moment'],
    resume: ['carry on', 'resume', "let's go on", 'keep going'],
    'how-long': ['how long', 'how much longer', 'time left', 'how long left'],
    'ready-when': [
      'ready when',
      'when ready',
      'when will we be ready',
      'when is it ready',
      'when will it be ready',
      'ready by when'
    ],
    'what-now': ['what now', 'what is it now'],
    where: ['where were we', 'where was i', 'where are we'],
    why: ['tell me why', 'why', 'why is that'],
    'why-here': ['why here', 'why this side', 'why this one first', 'why now', 'why not the other side'],
    slower: ['say it slower', 'slower', 'more slowly', 'not so fast', 'slower please'],
    more: ['tell me more', 'more', 'more detail', 'how do i do that'],
    help: ['help me', 'help', 'what can i say'],
    yes: [
      'yes',
      'yes it is',
      'yes it does',
      'yeah',
      'correct',
      "that's right",
      'understood',
      'i understand',
      'that is it',
      "that's it"
    ],
    no: ['no', 'no it is not', 'nope', 'not yet', "that's wrong"],
    quiet: ['be quiet', 'quiet', 'hush'],
    problem: ['a problem', 'problem', 'we have a problem', 'something is wrong'],
    'new-part': ['part replaced', 'i replaced a part', 'i put a new one in'],
    corrected: ['put right', 'it is fixed', "it's fixed", 'fixed', 'corrected']
  },
  steps: {
    higher: ['go higher', 'higher', 'a bit more', 'a little more'],
    lower: ['come down', 'lower', 'go lower', 'a bit less', 'a little less'],
    'far-higher': ['far more', 'much more', 'much higher', 'far higher', 'a lot more'],
    'far-lower': ['much less', 'far less', 'much lower', 'far lower', 'a lot less'],
    'that-is-it': ['that is it', "that's it", 'that is the number'],
    'other-scale': ['other scale', 'the other scale']
  },
  attention: ['hello sidecall', 'hello side call', 'hey sidecall', 'hey side call', 'sidecall', 'side call'],
  ambiguous: {
    stop: ['pause', 'problem'],
    back: ['take-back', 'repeat'],
    again: ['repeat', 'take-back'],
    okay: ['yes', 'done'],
    ok: ['yes', 'done'],
    right: ['yes', 'done']
  },
  filler: {
    before: ['please', 'okay', 'ok', 'um', 'uh', 'er', 'well', 'so', 'now', 'and', 'the', 'hey'],
    after: ['please', 'okay', 'ok', 'um', 'uh', 'er']
  },
  beforeNumber: ["it's", 'it is', 'it reads', 'it says', 'it shows', 'i read', 'i count', 'there are', 'there is'],
  afterNumber: ['degrees', 'degree', 'parts', 'part', 'pieces', 'piece', 'off', 'on', 'of them'],
  lanePatterns: ['$', '$ side', 'go $', 'go to $', 'go to the $', 'the $ side', 'to the $', 'go to the $ side'],
  sideForms: () => [],
  bench: ['bench', 'sink'],
  machine: ['whole machine', 'machine', 'both sides'],
  units: [
    ['parts per million', '[ppm]'],
    ['part per million', '[ppm]'],
    ['p p m', '[ppm]'],
    ['ppm', '[ppm]'],
    ['milligrams per liter', '[ppm]'],
    ['milligrams per litre', '[ppm]'],
    ['milligram per liter', '[ppm]'],
    ['mg/l', '[ppm]'],
    ['degrees celsius', 'Cel'],
    ['degree celsius', 'Cel'],
    ['celsius', 'Cel'],
    ['degrees c', 'Cel'],
    ['c', 'Cel'],
    ['degrees centigrade', 'Cel'],
    ['degrees fahrenheit', '[degF]'],
    ['degree fahrenheit', '[degF]'],
    ['fahrenheit', '[degF]'],
    ['degrees f', '[degF]'],
    ['f', '[degF]'],
    ['ph', '[pH]'],
    ['p h', '[pH]']
  ],
  number: parseNumberEn,
  numerals: numberWordsEn
}
