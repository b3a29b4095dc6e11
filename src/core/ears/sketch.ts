/** What an utterance sounded like, as one direction in space: two that sound alike point the same way. */
import { EMBEDDING_SIZE } from './sound.ts'

/** Long and short utterances are stretched to the same number of windows. */
const WINDOWS = 6
export const SKETCH_SIZE = WINDOWS * EMBEDDING_SIZE
/** Keeps an utterance with nothing in it from becoming all noise. */
const LEAST_SPREAD = 0.5

/** `embeddings` holds at least one window of 96 values. Length 1. */
export function sketchOf(embeddings: Float32Array): Float32Array {
  const windows = embeddings.length / EMBEDDING_SIZE
  const sketch = Float32Array.from({ length: SKETCH_SIZE }, (_, at) => {
    const place = (Math.floor(at / EMBEDDING_SIZE) * (windows - 1)) / (WINDOWS - 1)
    const before = Math.floor(place)
    const share = place - before
    const value = (window: number) =>
      embeddings[Math.min(windows - 1, window) * EMBEDDING_SIZE + (at % EMBEDDING_SIZE)] ?? 0
    return (1 - share) * value(before) + share * value(before + 1)
  })
  const mean = sketch.reduce((sum, value) => sum + value, 0) / SKETCH_SIZE
  const spread = Math.sqrt(sketch.reduce((sum, value) => sum + (value - mean) ** 2, 0) / SKETCH_SIZE) + LEAST_SPREAD
  const centred = sketch.map((value) => (value - mean) / spread)
  const length = Math.sqrt(centred.reduce((sum, value) => sum + value * value, 0))
  return length === 0 ? centred : centred.map((value) => value / length)
}

/** Cosine of the angle between two: 1 for the same. */
export function likeness(one: Float32Array, other: Float32Array): number {
  let sum = 0
  for (let at = 0; at < SKETCH_SIZE; at++) sum += (one[at] as number) * (other[at] as number)
  return sum
}

/**
 * The same utterance cut at nine places: ends are found late or early by a window. `embeddings` holds one window more
 * on each side than the utterance needs.
 */
export function sketchesAround(embeddings: Float32Array): readonly Float32Array[] {
  const windows = embeddings.length / EMBEDDING_SIZE
  return [0, 1, 2].flatMap((begin) =>
    [0, 1, 2]
      .filter((end) => windows - begin - end >= 1)
      .map((end) => sketchOf(embeddings.subarray(begin * EMBEDDING_SIZE, (windows - end) * EMBEDDING_SIZE)))
  )
}
