import { describe, expect, it } from 'vitest'
import { beginTime, catchUp, confirm, JUMP_MS, tick, type TrustedTime } from './trusted-time.ts'

const MINUTE = 60_000
const at = (wall: number, steady: number) => ({ wall, steady })
const begun = beginTime(at(1_000_000, 0), null)

describe('while the device is awake', () => {
  it('follows the steady line', () => {
    expect(tick(begun, at(1_060_000, MINUTE))).toEqual({
      time: { trusted: 1_060_000, wall: 1_060_000, steady: MINUTE, unconfirmedMs: 0, confirmedAt: null },
      jumpMs: 0
    })
  })

  it('takes small differences for drift', () => {
    expect(tick(begun, at(1_060_000 + JUMP_MS, MINUTE))).toMatchObject({ jumpMs: 0, time: { unconfirmedMs: 0 } })
    expect(tick(begun, at(1_060_000 - JUMP_MS, MINUTE)).jumpMs).toBe(0)
  })

  it('does not follow a wall clock that is set forward, and says by how much it was', () => {
    expect(tick(begun, at(4_660_000, MINUTE))).toMatchObject({
      jumpMs: 3_600_000,
      time: { trusted: 1_060_000, unconfirmedMs: 3_600_000 }
    })
  })

  it('does not go back with a wall clock that is set back', () => {
    const back = tick(begun, at(500_000, MINUTE))
    expect(back).toMatchObject({ jumpMs: -560_000, time: { trusted: 1_060_000, unconfirmedMs: 0 } })
    // Set right again: nothing is left to confirm but what was never passed.
    expect(tick(back.time, at(1_120_000, 2 * MINUTE))).toMatchObject({ jumpMs: 560_000, time: { trusted: 1_120_000 } })
  })

  it('stands still when the steady line goes back', () => {
    const later = tick(begun, at(1_060_000, MINUTE)).time
    expect(tick(later, at(1_060_000, 0)).time.trusted).toBe(1_060_000)
  })
})

describe('after a sleep', () => {
  const asleep = (time: TrustedTime) => tick(time, at(time.wall + 10 * MINUTE, time.steady))

  it('does not count it until the server confirms it', () => {
    const woken = asleep(begun)
    expect(woken).toMatchObject({ jumpMs: 10 * MINUTE, time: { trusted: 1_000_000, unconfirmedMs: 10 * MINUTE } })
    expect(confirm(woken.time, 1_000_000 + 10 * MINUTE, 0)).toMatchObject({
      trusted: 1_000_000 + 10 * MINUTE,
      unconfirmedMs: 0
    })
  })

  it('adds what passed on the steady line since the answer arrived', () => {
    const later = tick(asleep(begun).time, at(1_000_000 + 10 * MINUTE + 300, 300)).time
    expect(confirm(later, 1_600_000, 200).trusted).toBe(1_600_100)
  })
})

describe('after a reload', () => {
  it('goes on from what was stored, and counts the gap only when confirmed', () => {
    expect(beginTime(at(1_300_000, 5), { trusted: 900_000, wall: 1_000_000 })).toEqual({
      trusted: 900_000,
      wall: 1_300_000,
      steady: 5,
      unconfirmedMs: 300_000,
      confirmedAt: null
    })
  })

  it('has no gap when the wall clock went back meanwhile', () => {
    expect(beginTime(at(500_000, 5), { trusted: 900_000, wall: 1_000_000 }).unconfirmedMs).toBe(0)
  })
})

describe('waits begun while the device was behind', () => {
  it('are due later by all that it catches up', () => {
    const confirmed = confirm(begun, 1_000_000, 0)
    const woken = tick(confirmed, at(1_600_000, 0)).time
    expect(catchUp(woken, woken.trusted, 1_600_000)).toEqual({ since: 1_000_000, byMs: 600_000 })
  })

  it('are all those of the device when the server has never answered before', () => {
    const slowClock = beginTime(at(1_000_000, 0), null)
    expect(catchUp(slowClock, slowClock.trusted, 1_900_000)).toEqual({ since: 0, byMs: 900_000 })
  })

  it('are due sooner when its clock was ahead, so that nobody waits for hours', () => {
    const fastClock = beginTime(at(1_000_000 + 3 * 3_600_000, 0), null)
    expect(catchUp(fastClock, fastClock.trusted, 1_000_000).byMs).toBe(-3 * 3_600_000)
  })
})
