/** The word that must come first in loud places. */
import { tokens } from './tokens.ts'

/** What was said after the word, empty for the word alone; null where it was not said at the beginning. */
export function afterAttention(words: string, phrases: readonly string[]): string | null {
  const said = tokens(words)
  const found = phrases.map(tokens).find((phrase) => phrase.every((token, at) => said[at] === token))
  return found ? said.slice(found.length).join(' ') : null
}
