import fc from 'fast-check'
import { expect, test } from 'vitest'
import { packed, unpacked } from './packed-embeddings.ts'
import { EMBEDDING_SIZE } from './sound.ts'

test('what is unpacked is what was packed, within half a step of the scale', () => {
  const anyWindow = fc.array(fc.float({ min: -40, max: 40, noNaN: true }), {
    minLength: EMBEDDING_SIZE,
    maxLength: EMBEDDING_SIZE
  })
  fc.assert(
    fc.property(fc.array(fc.array(anyWindow, { minLength: 1, maxLength: 3 }), { maxLength: 3 }), (list) => {
      const utterances = list.map((windows) => Float32Array.from(windows.flat()))
      const back = unpacked(packed(utterances))
      expect(back.map(({ length }) => length)).toEqual(utterances.map(({ length }) => length))
      utterances.forEach((utterance, number) => {
        const step = Math.max(1e-6, ...utterance.map(Math.abs)) / 127
        utterance.forEach((value, at) =>
          expect(Math.abs((back[number]?.[at] ?? Number.NaN) - value)).toBeLessThanOrEqual(step * 0.51)
        )
      })
    }),
    { numRuns: 25 }
  )
})

test('bytes that are cut short are refused', () => {
  const bytes = packed([new Float32Array(EMBEDDING_SIZE).fill(1)])
  expect(() => unpacked(bytes.subarray(0, 50))).toThrow(RangeError)
})
