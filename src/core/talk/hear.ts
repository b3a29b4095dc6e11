/** From heard words to what the operator means. Certain, ambiguous, or not understood; never a guess. */
import type { Course, Lane } from '../procedure/course.ts'
import { BENCH, MACHINE, type ReadingUnit } from '../procedure/procedure.ts'
import { NUMBER_STEPS, type Intent, type NumberStep, type PlainIntent } from './intent.ts'
import { cores, tokens } from './tokens.ts'
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
  /** A number may be told in steps. To ears that know every word, "that's it" is a yes. */
  readonly steps: boolean
  /** A yes-or-no question is open. */
  readonly yesNo: boolean
}

/** Best alternative first; the first that means anything wins, even if it is ambiguous: what follows is less likely. */
export function hear(alternatives: readonly string[], vocabulary: Vocabulary, expecting: Expecting): Hearing {
  const hearings = alternatives.map((words) => hearOne(words, vocabulary, expecting))
  return hearings.find((hearing) => hearing.kind !== 'unknown') ?? hearings[0] ?? { kind: 'unknown', words: '' }
}

function hearOne(words: string, vocabulary: Vocabulary, expecting: Expecting): Hearing {
  const { filler } = vocabulary
  const all = tokens(words)
  const ways = cores(all, filler)
  const meant = (intent: Intent): Hearing => ({ kind: 'meant', intent, words })
  const phrase = expecting.phrase === null ? null : joined(tokens(expecting.phrase))
  if (ways.some((way) => joined(way) === phrase)) return meant({ type: 'phrase' })
  // Where a number is asked for, "one" is no side of that name. "And five" may be the end of a longer number.
  const numbers = expecting.numbers ? cores(all, { before: filler.after, after: filler.after }) : []
  const number = numbers.map((way) => numberIn(way, vocabulary)).find((found) => found !== null)
  if (number) return meant(number)
  const step = expecting.numbers && expecting.steps ? stepIn(ways.map(joined), vocabulary) : null
  if (step) return meant({ type: 'number-step', step })
  for (const way of ways) {
    // "Okay, right" is an answer as much as a side.
    const agrees =
      way.length < all.length && all.some((word) => isVague(word, vocabulary) && filler.after.includes(word))
    const intents = meaningsOf(joined(way), vocabulary, expecting, agrees)
    const only = intents[0]
    if (intents.length === 1 && only) return meant(only)
    if (intents.length > 1) return { kind: 'ambiguous', between: intents, words }
  }
  return { kind: 'unknown', words }
}

function stepIn(said: readonly string[], { steps }: Vocabulary): NumberStep | null {
  return NUMBER_STEPS.find((step) => steps[step].some((phrase) => said.includes(joined(tokens(phrase))))) ?? null
}

function isVague(said: string, { ambiguous }: Vocabulary): boolean {
  return Object.hasOwn(ambiguous, said)
}

function meaningsOf(said: string, vocabulary: Vocabulary, expecting: Expecting, agrees: boolean): readonly Intent[] {
  const lanes = lanesNamed(said, vocabulary, expecting)
  const vague = vagueMeanings(said, vocabulary, expecting)
  const plain = (Object.entries(vocabulary.phrases) as [PlainIntent, readonly string[]][])
    .filter(([, phrases]) => phrases.some((phrase) => joined(tokens(phrase)) === said))
    .map(([type]) => ({ type }))
  if (lanes.length === 0) return vague.length > 0 ? vague : plain
  // "Right" is a side first; where a yes or no is open, or with an "okay" beside it, it could be either.
  return [...lanes, ...plain, ...(expecting.yesNo || agrees ? vague : [])]
}

function vagueMeanings(said: string, vocabulary: Vocabulary, { yesNo }: Expecting): readonly Intent[] {
  const meanings = isVague(said, vocabulary) ? (vocabulary.ambiguous[said] ?? []) : []
  return (yesNo && meanings.includes('yes') ? (['yes'] as const) : meanings).map((type) => ({ type }))
}

function lanesNamed(said: string, vocabulary: Vocabulary, { course, language }: Expecting): readonly Intent[] {
  return course.lanes.flatMap((lane): readonly Intent[] => {
    const names =
      { [BENCH]: vocabulary.bench, [MACHINE]: vocabulary.machine }[lane.id] ?? sideNames(lane, vocabulary, language)
    const spoken = names.flatMap((name) => vocabulary.lanePatterns.map((pattern) => pattern.replace('$', () => name)))
    return spoken.includes(said) ? [{ type: 'lane', lane: lane.id }] : []
  })
}

function sideNames({ id, name }: Lane, { numerals, sideForms }: Vocabulary, language: string): readonly string[] {
  const written = name[language] ?? Object.values(name)[0] ?? id
  const names = [written, written.replaceAll(/(?<![\w.])\d+(?![\w.])/g, numerals)].map((one) => joined(tokens(one)))
  return [...names, ...names.flatMap(sideForms)]
}

function numberIn(words: readonly string[], vocabulary: Vocabulary): Intent | null {
  const whole = joined(words)
  const opening = vocabulary.beforeNumber.find((phrase) => whole.startsWith(`${phrase} `))
  const said = opening === undefined ? whole : whole.slice(opening.length + 1)
  for (const [spoken, unit] of vocabulary.units) {
    if (said.endsWith(` ${spoken}`)) return valueOf(said.slice(0, -spoken.length - 1), unit, vocabulary)
    if (unit === '[pH]' && said.startsWith(`${spoken} `))
      return valueOf(said.slice(spoken.length + 1), unit, vocabulary)
  }
  const closing = vocabulary.afterNumber.find((phrase) => said.endsWith(` ${phrase}`))
  return valueOf(closing === undefined ? said : said.slice(0, -closing.length - 1), null, vocabulary)
}

function valueOf(said: string, unit: ReadingUnit | null, vocabulary: Vocabulary): Intent | null {
  const value = vocabulary.number(said.split(' '))
  return value === null ? null : { type: 'number', value, unit }
}

function joined(words: readonly string[]): string {
  return words.join(' ')
}
