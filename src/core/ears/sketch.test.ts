import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { likeness, SKETCH_SIZE, sketchesAround, sketchOf } from './sketch.ts'
import { EMBEDDING_SIZE } from './sound.ts'

const anyEmbeddings = fc
  .integer({ min: 1, max: 12 })
  .chain((windows) =>
    fc.array(fc.float({ min: -50, max: 50, noNaN: true }), {
      minLength: windows * EMBEDDING_SIZE,
      maxLength: windows * EMBEDDING_SIZE
    })
  )
  .map((values) => Float32Array.from(values))

describe('sketch', () => {
  test('has the same size and length 1 for any number of windows', () => {
    fc.assert(
      fc.property(anyEmbeddings, (embeddings) => {
        fc.pre(embeddings.some((value) => Math.abs(value - (embeddings[0] ?? 0)) > 1))
        const sketch = sketchOf(embeddings)
        expect(sketch).toHaveLength(SKETCH_SIZE)
        expect(likeness(sketch, sketch)).toBeCloseTo(1, 4)
      })
    )
  })

  test('does not mind being played slower', () => {
    const window = (phase: number) =>
      Array.from({ length: EMBEDDING_SIZE }, (_, at) => 20 * Math.sin(at * 0.7 + phase * 2))
    const fast = Float32Array.from([0, 0.25, 0.5, 0.75, 1].flatMap(window))
    const slow = Float32Array.from([0, 0.125, 0.25, 0.375, 0.5, 0.625, 0.75, 0.875, 1].flatMap(window))
    const backwards = Float32Array.from([1, 0.75, 0.5, 0.25, 0].flatMap(window))
    expect(likeness(sketchOf(fast), sketchOf(slow))).toBeGreaterThan(0.99)
    expect(likeness(sketchOf(fast), sketchOf(backwards))).toBeLessThan(0.9)
  })

  test('around: nine cuts, the middle one without the outer windows', () => {
    const embeddings = Float32Array.from({ length: 6 * EMBEDDING_SIZE }, (_, at) => Math.sin(at * at))
    const cuts = sketchesAround(embeddings)
    expect(cuts).toHaveLength(9)
    expect(cuts[4]).toEqual(sketchOf(embeddings.subarray(EMBEDDING_SIZE, 5 * EMBEDDING_SIZE)))
  })
})
