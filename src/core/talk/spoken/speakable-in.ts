/** Loaded as one piece beside the first screen, before anything can be said. */
import { speakableEn } from './english.ts'
import { speakableEs } from './spanish.ts'
import type { Pronunciation } from './speakable.ts'

/** `language` is a BCP 47 tag; English rules stand in for a language that has none of its own. */
export function speakableIn(language: string, text: string, own: readonly Pronunciation[] = []): string {
  return (/^es\b/i.test(language) ? speakableEs : speakableEn)(text, own)
}
