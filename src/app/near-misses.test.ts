import { expect, test } from 'vitest'
import { fakeClock } from '../../tests/helpers/fake-clock.ts'
import { nearMisses } from './near-misses.ts'

test('the second within a quarter of a minute, once for each call', () => {
  const clock = fakeClock()
  const misses = nearMisses(clock)
  expect(misses.isTimeToOffer('a')).toBe(false)
  clock.advance(14_000)
  expect(misses.isTimeToOffer('a')).toBe(true)
  expect(misses.isTimeToOffer('a')).toBe(false)
  expect(misses.isTimeToOffer('b')).toBe(true)
  clock.advance(16_000)
  expect(misses.isTimeToOffer('c')).toBe(false)
  misses.end()
  expect(misses.isTimeToOffer('c')).toBe(false)
})
