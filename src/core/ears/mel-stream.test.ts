import fc from 'fast-check'
import { expect, test } from 'vitest'
import { melFrames, melStream } from './mel-stream.ts'
import { BAND_HZ } from './mel.ts'
import { BANDS, SAMPLE_RATE } from './sound.ts'

const tone = (hz: number, samples: number) =>
  Float32Array.from({ length: samples }, (_, at) => 0.1 * Math.sin((2 * Math.PI * hz * at) / SAMPLE_RATE))

test('the same frames come out however the samples are cut up', () => {
  const samples = tone(700, 4000).map((value, at) => value * Math.sin(at / 300))
  const whole = melFrames(samples)
  fc.assert(
    fc.property(fc.array(fc.integer({ min: 1, max: 900 }), { minLength: 3, maxLength: 12 }), (sizes) => {
      const stream = melStream()
      const frames: number[] = []
      let at = 0
      for (const size of [...sizes, samples.length]) {
        frames.push(...stream.push(samples.subarray(at, at + size)))
        at = Math.min(samples.length, at + size)
      }
      expect(frames).toEqual([...whole])
    }),
    { numRuns: 30 }
  )
})

test.each([5, 14, 30])('a tone in the middle of band %i is loudest there', (band) => {
  const frames = melFrames(tone(BAND_HZ[band] ?? 0, 2000))
  const first = frames.subarray(0, BANDS)
  expect(first.indexOf(Math.max(...first))).toBe(band)
})

test('too few samples for a frame give none', () => {
  expect(melFrames(tone(440, 511))).toHaveLength(0)
  expect(melFrames(tone(440, 512))).toHaveLength(BANDS)
})
