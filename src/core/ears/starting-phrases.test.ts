import { expect, test } from 'vitest'
import { likeness, sketchOf } from './sketch.ts'
import { EMBEDDING_SIZE } from './sound.ts'
import { packedPhrases, unpackedPhrases } from './starting-phrases.ts'

const sketch = (phase: number) =>
  sketchOf(Float32Array.from({ length: 9 * EMBEDDING_SIZE }, (_, at) => 10 * Math.sin(at * 0.3 + phase)))

test('phrases come back as they were, whatever letters they have, and as near to others', () => {
  const phrases = [
    { words: 'all done', frames: 52, sketches: [sketch(0), sketch(1)], others: { mean: 0.31, spread: 0.12 } },
    { words: 'cuánto falta', frames: 71, sketches: [sketch(2)], others: { mean: 0.28, spread: 0.11 } }
  ]
  const back = unpackedPhrases(packedPhrases(phrases))
  expect(back.map(({ words, frames, others }) => [words, frames, others])).toEqual(
    phrases.map(({ words, frames, others }) => [words, frames, others])
  )
  back.forEach(({ sketches }, phrase) =>
    sketches.forEach((one, at) => {
      const wanted = phrases[phrase]?.sketches[at] ?? new Float32Array(0)
      expect(Math.abs(likeness(one, sketch(3)) - likeness(wanted, sketch(3)))).toBeLessThan(0.01)
    })
  )
})
