/** Phrases that nobody has practised yet, as several voices say them: heard less well, but heard. */
import { packed, unpacked } from './packed-embeddings.ts'
import { listIn, withList } from './packed-list.ts'
import type { Phrasebook } from './phrasebook.ts'

interface Entry {
  readonly words: string
  readonly frames: number
  readonly sketches: number
  /** Worked out beforehand: hundreds of comparisons a phrase would make a tablet wait. */
  readonly others: { readonly mean: number; readonly spread: number }
}

/** A list of the phrases, then all sketches. */
export function packedPhrases(phrases: Phrasebook): Uint8Array {
  const list = phrases.map((phrase): Entry => ({ ...phrase, sketches: phrase.sketches.length }))
  return withList(list, packed(phrases.flatMap((phrase) => phrase.sketches)))
}

/** @throws Error when the bytes are cut short. */
export function unpackedPhrases(bytes: Uint8Array): Phrasebook {
  const found = listIn(bytes)
  if (!found) throw new Error('These are no packed phrases.')
  const sketches = unpacked(found.rest)
  let at = 0
  return (found.list as readonly Entry[]).map((entry) => ({
    ...entry,
    sketches: sketches.slice(at, (at += entry.sketches))
  }))
}
