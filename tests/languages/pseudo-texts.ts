/**
 * A language that nobody speaks: English with an accent on every vowel, and a third longer, as translations tend to be.
 * Text that does not come out of the tables of words stays plain English, and is seen at once.
 */
import { talkIn, type Talk } from '../../src/core/talk/languages.ts'
import type { Texts } from '../../src/screens/texts.ts'
import { textsEn } from './english-texts.ts'

const ACCENTED: Readonly<Record<string, string>> = {
  a: 'á',
  e: 'é',
  i: 'í',
  o: 'ó',
  u: 'ú',
  A: 'Á',
  E: 'É',
  I: 'Í',
  O: 'Ó',
  U: 'Ú'
}
const LONGER = 0.33
/** Around what keeps its letters; a word joiner, which nobody sees. */
const KEPT = '\u2060'

/** Figures, units and what stands in quotes for a file keep their letters. */
function pseudo(text: string): string {
  return text.replaceAll(/\u2060[^\u2060]*\u2060|\p{L}{3,}/gu, (word) => {
    if (word.startsWith(KEPT)) return word.slice(1, -1)
    const accented = Array.from(word, (letter) => ACCENTED[letter] ?? letter).join('')
    return `${accented}${'é'.repeat(Math.ceil(word.length * LONGER))}`
  })
}

/** What is put into a sentence is text already. */
function kept(gap: unknown): unknown {
  if (Array.isArray(gap)) return gap.map(kept)
  return typeof gap === 'string' && gap.includes(' ') ? `${KEPT}${gap}${KEPT}` : gap
}

function pseudoOf<T>(texts: T): T {
  if (typeof texts === 'string') return pseudo(texts) as T
  if (typeof texts === 'function') {
    const say = texts as unknown as (...args: readonly unknown[]) => unknown
    return ((...args: readonly unknown[]) => pseudoOf(say(...args.map(kept)))) as T
  }
  if (Array.isArray(texts)) return texts.map((text) => pseudoOf<unknown>(text)) as T
  if (typeof texts !== 'object' || texts === null) return texts
  return Object.fromEntries(Object.entries(texts).map(([key, text]) => [key, pseudoOf<unknown>(text)])) as T
}

/** Under the names that the page asks for. */
export const textsEs: Texts = pseudoOf(textsEn)

const [english, spanish] = await Promise.all([talkIn('en'), talkIn('es')])
/** Its phrases stand on the screen for practice; they are Spanish. */
export const SPANISH: Talk = { ...spanish, words: pseudoOf(english.words) }
