/** How rules read what an author wrote: by patterns in each language, in whichever languages the text is there. */
import { LANGUAGES, type Language } from '../../talk/languages.ts'
import type { Text } from '../procedure.ts'

export type Patterns = Readonly<Record<Language, RegExp>>

/** Whether the text says so in any language; what a rule cannot read it does not judge. */
export function says(text: Text | null | undefined, patterns: Patterns): boolean {
  return LANGUAGES.some((language) => patterns[language].test(text?.[language] ?? ''))
}

/** A pattern for Spanish: whole words, whatever their case. `\b` knows no accents. */
export function spanish(pattern: string): RegExp {
  return new RegExp(`(?<!\\p{L})(?:${pattern})(?!\\p{L})`, 'iu')
}

/** The same, for beginnings of words. */
export function spanishStem(pattern: string): RegExp {
  return new RegExp(`(?<!\\p{L})(?:${pattern})`, 'iu')
}
