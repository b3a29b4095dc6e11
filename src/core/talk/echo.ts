/** The app must not obey itself: words that mostly repeat what it just said are its own sound coming back. */
import { tokens } from './tokens.ts'

const OVERLAP = 0.6

/** `said` holds the text as written and as spoken: a recogniser writes numbers either way. */
export function isEcho(heard: string, said: string): boolean {
  const words = tokens(heard)
  if (words.length < 2) return false
  const spoken = new Set(tokens(said))
  return words.filter((word) => spoken.has(word)).length / words.length >= OVERLAP
}
