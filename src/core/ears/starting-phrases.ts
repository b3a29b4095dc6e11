/** Phrases that nobody has practised yet, as several voices say them: heard less well, but heard. */
import { packed, unpacked } from './packed-embeddings.ts'
import type { Phrasebook } from './phrasebook.ts'

interface Entry {
  readonly words: string
  readonly frames: number
  readonly sketches: number
  /** Worked out beforehand: hundreds of comparisons a phrase would make a tablet wait. */
  readonly others: { readonly mean: number; readonly spread: number }
}

const HEAD_BYTES = 4

/** A length, a list of the phrases as JSON in UTF-16, then all sketches. */
export function packedPhrases(phrases: Phrasebook): Uint8Array {
  const list = phrases.map((phrase): Entry => ({ ...phrase, sketches: phrase.sketches.length }))
  const json = JSON.stringify(list)
  const sketches = packed(phrases.flatMap((phrase) => phrase.sketches))
  const bytes = new Uint8Array(HEAD_BYTES + 2 * json.length + sketches.length)
  const view = new DataView(bytes.buffer)
  view.setUint32(0, json.length, true)
  for (let at = 0; at < json.length; at++) view.setUint16(HEAD_BYTES + 2 * at, json.charCodeAt(at), true)
  bytes.set(sketches, HEAD_BYTES + 2 * json.length)
  return bytes
}

/** @throws Error when the bytes are cut short. */
export function unpackedPhrases(bytes: Uint8Array): Phrasebook {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  const letters = view.getUint32(0, true)
  const codes = Array.from({ length: letters }, (_, at) => view.getUint16(HEAD_BYTES + 2 * at, true))
  const list = JSON.parse(String.fromCharCode(...codes)) as readonly Entry[]
  const sketches = unpacked(bytes.subarray(HEAD_BYTES + 2 * letters))
  let at = 0
  return list.map((entry) => ({ ...entry, sketches: sketches.slice(at, (at += entry.sketches)) }))
}
