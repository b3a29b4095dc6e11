/** Phrases that nobody has practised yet, as several voices say them: heard less well, but heard. */
import { packed, unpacked } from './packed-embeddings.ts'
import { middleSketch, phraseOf, type OtherSpeech, type Phrasebook } from './phrasebook.ts'
import { sketchesAround } from './sketch.ts'

export interface StartingPhrase {
  readonly words: string
  /** Frames that it lasts on average. */
  readonly frames: number
  /** Embeddings, one entry a take. */
  readonly takes: readonly Float32Array[]
}

interface Entry {
  readonly words: string
  readonly frames: number
  readonly takes: number
}

const HEAD_BYTES = 4

/** A length, a list of the phrases as JSON in UTF-16, then all takes. */
export function packedPhrases(phrases: readonly StartingPhrase[]): Uint8Array {
  const list = phrases.map(({ words, frames, takes }): Entry => ({ words, frames, takes: takes.length }))
  const json = JSON.stringify(list)
  const takes = packed(phrases.flatMap((phrase) => phrase.takes))
  const bytes = new Uint8Array(HEAD_BYTES + 2 * json.length + takes.length)
  const view = new DataView(bytes.buffer)
  view.setUint32(0, json.length, true)
  for (let at = 0; at < json.length; at++) view.setUint16(HEAD_BYTES + 2 * at, json.charCodeAt(at), true)
  bytes.set(takes, HEAD_BYTES + 2 * json.length)
  return bytes
}

/** @throws Error when the bytes are cut short. */
export function unpackedPhrases(bytes: Uint8Array): readonly StartingPhrase[] {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  const letters = view.getUint32(0, true)
  const codes = Array.from({ length: letters }, (_, at) => view.getUint16(HEAD_BYTES + 2 * at, true))
  const list = JSON.parse(String.fromCharCode(...codes)) as readonly Entry[]
  const takes = unpacked(bytes.subarray(HEAD_BYTES + 2 * letters))
  let at = 0
  return list.map((entry) => ({ ...entry, takes: takes.slice(at, (at += entry.takes)) }))
}

export function startingBook(phrases: readonly StartingPhrase[], others: OtherSpeech): Phrasebook {
  const otherSketches = others.map(sketchesAround)
  return phrases.map(({ words, frames, takes }) => phraseOf(words, takes.map(middleSketch), frames, otherSketches))
}
