import { expect, test } from 'vitest'
import { resampled, resampler } from './resample.ts'

const tone = (hz: number, rate: number, seconds = 0.2) =>
  Float32Array.from({ length: Math.round(rate * seconds) }, (_, at) => Math.sin((2 * Math.PI * hz * at) / rate))
const inner = (samples: Float32Array) => samples.subarray(400, samples.length - 400)

test.each([8000, 11_025, 22_050, 44_100, 48_000])('a tone from %i Hz is the same tone at 16 kHz', (rate) => {
  const got = inner(resampled(tone(1000, rate), rate, 16_000))
  const wanted = inner(tone(1000, 16_000))
  got.forEach((value, at) => expect(Math.abs(value - (wanted[at] ?? 0))).toBeLessThan(0.02))
})

test('what 16 kHz cannot hold is taken away and not folded back', () => {
  const got = inner(resampled(tone(11_000, 48_000), 48_000, 16_000))
  expect(Math.max(...got.map(Math.abs))).toBeLessThan(0.01)
})

test.each([44_100, 48_000, 22_050])('a stream of portions from %i Hz has no seams', (rate) => {
  const convert = resampler(rate, 16_000)
  const samples = tone(1000, rate, 0.5)
  const parts: number[] = []
  for (let at = 0; at < samples.length; at += 1411) parts.push(...convert(samples.subarray(at, at + 1411)))
  const wanted = tone(1000, 16_000, 0.5)
  expect(parts.length).toBeGreaterThan(7900)
  parts.slice(400, 7800).forEach((value, at) => expect(Math.abs(value - (wanted[at + 400] ?? 0))).toBeLessThan(0.02))
})
