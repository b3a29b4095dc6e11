import { describe, expect, test } from 'vitest'
import { nextAnchor, trustedAt } from './server-time.ts'

const HOUR = 3600 * 1000
const kept = { bootId: 'monday', uptime: 1000, trusted: 50 * HOUR }

describe('a new boot while a run is open', () => {
  test('takes the time the machine was off from the wall clock, which is all there is', () => {
    const reading = { bootId: 'tuesday', uptime: 30, wall: 60 * HOUR }
    expect(nextAnchor(kept, reading, true)).toEqual({ bootId: 'tuesday', uptime: 30, trusted: 60 * HOUR })
  })

  test('with a wall clock without a battery counts at least the time since the boot', () => {
    const reading = { bootId: 'tuesday', uptime: 30, wall: 0 }
    expect(nextAnchor(kept, reading, true).trusted).toBe(50 * HOUR + 30_000)
  })

  test('is noticed by an uptime that begins again, where boots have no names', () => {
    const reading = { bootId: 'monday', uptime: 999, wall: 60 * HOUR }
    expect(nextAnchor(kept, reading, true).trusted).toBe(60 * HOUR)
  })
})

test('in the same boot the wall clock says nothing while a run is open', () => {
  for (const wall of [0, 49 * HOUR, 51 * HOUR, 1e15]) {
    expect(nextAnchor(kept, { bootId: 'monday', uptime: 1060, wall }, true).trusted).toBe(50 * HOUR + 60_000)
  }
})

test('with no run open the wall clock is taken as it is', () => {
  for (const wall of [0, 49 * HOUR, 1e15]) {
    expect(nextAnchor(kept, { bootId: 'monday', uptime: 1060, wall }, false).trusted).toBe(wall)
  }
  expect(nextAnchor(null, { bootId: 'monday', uptime: 1060, wall: 7 }, true).trusted).toBe(7)
})

test('an uptime that steps back for a moment does not take time with it', () => {
  expect(trustedAt(kept, { bootId: 'monday', uptime: 998, wall: 0 })).toBe(kept.trusted)
})
