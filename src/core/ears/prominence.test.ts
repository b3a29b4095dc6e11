import { expect, test } from 'vitest'
import { prominence } from './prominence.ts'
import { BANDS } from './sound.ts'

/** Band powers that waver by up to 3 dB, as noise does. */
const noise = (at: number, level: number) =>
  Float32Array.from({ length: BANDS }, (_, band) => level * (1 + 0.5 * Math.sin(at * 1.7 + band * 2.3)))
const speech = (at: number, level: number) => noise(at, level).map((power, band) => (band > 6 ? power : 0))

test.each([1, 1e4, 1e8])('steady noise of power %d stands out of nothing, speech 10 dB above it does', (level) => {
  const stand = prominence()
  let lasting = 0
  for (let at = 0; at < 400; at++) lasting = stand.push(noise(at, level))
  expect(Math.abs(lasting)).toBeLessThan(1)
  let loud = 0
  for (let at = 400; at < 430; at++) {
    const around = noise(at, level)
    loud = stand.push(speech(at, level * 10).map((power, band) => power + (around[band] ?? 0)))
  }
  expect(loud).toBeGreaterThan(5)
})

test('a fan that starts is the room after a few seconds', () => {
  const stand = prominence()
  for (let at = 0; at < 400; at++) stand.push(noise(at, 10))
  expect(stand.push(noise(400, 1e4))).toBeGreaterThan(5)
  let later = 0
  for (let at = 401; at < 900; at++) later = stand.push(noise(at, 1e4))
  expect(Math.abs(later)).toBeLessThan(1)
})
