/** From heard words to what the operator means. Certain, ambiguous, or not understood; never a guess. */
import type { Course } from '../procedure/course.ts'
import { BENCH, MACHINE, type ReadingUnit } from '../procedure/procedure.ts'
import type { Intent, PlainIntent } from './intent.ts'
import { parseNumberEn } from './numbers.en.ts'
import type { Vocabulary } from './vocabulary.en.ts'

export type Hearing =
  | { readonly kind: 'meant'; readonly intent: Intent; readonly words: string }
  | { readonly kind: 'ambiguous'; readonly between: readonly Intent[]; readonly words: string }
  | { readonly kind: 'unknown'; readonly words: string }

export interface Expecting {
  readonly course: Course
  readonly language: string
  /** The phrase the called step must be confirmed with, if it has one. */
  readonly phrase: string | null
  /** Numbers count only while a reading, a count or a choice is asked for. */
  readonly numbers: boolean
  /** A yes-or-no question is open. */
  readonly yesNo: boolean
}

/** Best alternative first; the first that means something certain wins, then the first ambiguous one. */
export function hear(alternatives: readonly string[], vocabulary: Vocabulary, expecting: Expecting): Hearing {
  const hearings = alternatives.map((words) => hearOne(words, vocabulary, expecting))
  return (
    hearings.find((hearing) => hearing.kind === 'meant') ??
    hearings.find((hearing) => hearing.kind === 'ambiguous') ??
    hearings[0] ?? { kind: 'unknown', words: '' }
  )
}

function hearOne(words: string, vocabulary: Vocabulary, expecting: Expecting): Hearing {
  const all = tokens(words)
  const meant = (intent: Intent): Hearing => ({ kind: 'meant', intent, words })
  if (expecting.phrase !== null && joined(all) === joined(tokens(expecting.phrase))) return meant({ type: 'phrase' })
  for (const said of unique([joined(all), joined(trimFiller(all, vocabulary))])) {
    const intents = meaningsOf(said, vocabulary, expecting)
    const only = intents[0]
    if (intents.length === 1 && only) return meant(only)
    if (intents.length > 1) return { kind: 'ambiguous', between: intents, words }
  }
  const number = expecting.numbers ? numberIn(trimFiller(all, vocabulary)) : null
  return number ? meant(number) : { kind: 'unknown', words }
}

function meaningsOf(said: string, vocabulary: Vocabulary, expecting: Expecting): readonly Intent[] {
  const lanes = lanesNamed(said, vocabulary, expecting)
  const vague = (vocabulary.ambiguous[said] ?? []).map((type) => ({ type }) as Intent)
  if (lanes.length > 0) {
    // "Right" is a side first; it is an answer only where a yes or no is open, and then it could be either.
    return vague.length > 0 && expecting.yesNo ? [...lanes, { type: 'yes' }] : lanes
  }
  if (vague.length > 0) return expecting.yesNo && vague.some((intent) => intent.type === 'yes') ? [{ type: 'yes' }] : vague
  return (Object.entries(vocabulary.phrases) as [PlainIntent, readonly string[]][])
    .filter(([, phrases]) => phrases.some((phrase) => joined(tokens(phrase)) === said))
    .map(([type]) => ({ type }) as Intent)
}

function lanesNamed(said: string, vocabulary: Vocabulary, { course, language }: Expecting): readonly Intent[] {
  return course.lanes.flatMap((lane): readonly Intent[] => {
    const name = joined(tokens(lane.name[language] ?? lane.id))
    const spoken =
      lane.id === BENCH ? vocabulary.bench : lane.id === MACHINE ? vocabulary.machine : vocabulary.lanePatterns.map((pattern) => pattern.replace('$', name))
    return spoken.some((phrase) => joined(tokens(phrase)) === said) ? [{ type: 'lane', lane: lane.id }] : []
  })
}

const UNIT_WORDS: readonly (readonly [string, ReadingUnit])[] = [
  ['parts per million', '[ppm]'],
  ['p p m', '[ppm]'],
  ['ppm', '[ppm]'],
  ['degrees celsius', 'Cel'],
  ['celsius', 'Cel'],
  ['degrees fahrenheit', '[degF]'],
  ['fahrenheit', '[degF]'],
  ['ph', '[pH]'],
  ['p h', '[pH]']
]

function numberIn(words: readonly string[]): Intent | null {
  const said = joined(words)
  for (const [spoken, unit] of UNIT_WORDS) {
    if (said.endsWith(` ${spoken}`)) return valueOf(said.slice(0, -spoken.length - 1).split(' '), unit)
    if (unit === '[pH]' && said.startsWith(`${spoken} `)) return valueOf(said.slice(spoken.length + 1).split(' '), unit)
  }
  return valueOf(words.at(-1) === 'degrees' ? words.slice(0, -1) : words, null)
}

function valueOf(words: readonly string[], unit: ReadingUnit | null): Intent | null {
  const value = parseNumberEn(words)
  return value === null ? null : { type: 'number', value, unit }
}

/** Lower case, accents kept, punctuation gone; a decimal point inside digits stays. */
export function tokens(words: string): string[] {
  return words
    .toLowerCase()
    .replaceAll('’', "'")
    .replaceAll(/(?<!\d)[.]|[.](?!\d)|[,;:!?"()]/g, ' ')
    .split(/\s+/)
    .filter((word) => word !== '')
}

function trimFiller(words: readonly string[], vocabulary: Vocabulary): readonly string[] {
  const isFiller = (word: string | undefined) => word !== undefined && vocabulary.filler.includes(word)
  let [start, end] = [0, words.length]
  while (end - start > 1 && isFiller(words[start])) start += 1
  while (end - start > 1 && isFiller(words[end - 1])) end -= 1
  return words.slice(start, end)
}

function joined(words: readonly string[]): string {
  return words.join(' ')
}

function unique(items: readonly string[]): readonly string[] {
  return [...new Set(items)]
}
