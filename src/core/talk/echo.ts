/** The app must not obey itself: words that mostly repeat what it just said are its own sound coming back. */
import { speakable } from './quantities.ts'
import { tokens } from './tokens.ts'

const OVERLAP = 0.6

export function isEcho(heard: string, said: string): boolean {
  const words = tokens(heard)
  if (words.length < 2) return false
  // A recogniser writes numbers either way, whichever way they were spoken.
  const spoken = new Set([...tokens(said), ...tokens(speakable(said))])
  return words.filter((word) => spoken.has(word)).length / words.length >= OVERLAP
}
