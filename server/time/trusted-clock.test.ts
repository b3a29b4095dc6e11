/** The server's clock over days of restarts, power cuts and people who set the wall clock. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { counting, STARTED } from '../../tests/helpers/stamping.ts'
import type { RunFact } from '../../src/core/run/event.ts'
import { canonicalJson } from '../procedures/content-hash.ts'
import { memoryRecords } from '../storage/memory-records.ts'
import { startTrustedClock } from './trusted-clock.ts'

const MINUTE = 60_000

/** A machine with a wall clock anybody can set, and a boot clock nobody can. Times in ms. */
function machine() {
  const records = memoryRecords()
  const stamp = counting()
  let wall = Date.UTC(2026, 0, 5, 6)
  let uptime = 90_000
  let boot = 1
  const read = () => ({ bootId: `boot ${boot}`, uptime: uptime / 1000, wall })
  let clock = startTrustedClock(records, read)
  return {
    now: async () => (await clock).now(),
    wall: () => wall,
    keep: async () => (await clock).keep(),
    pass(ms: number) {
      wall += ms
      uptime += ms
    },
    setWall(ms: number) {
      wall += ms
    },
    restart() {
      clock = startTrustedClock(records, read)
    },
    /** `off` is how long it had no power; the wall clock counts it only when it has a battery. */
    reboot(off: number, battery: boolean) {
      boot += 1
      uptime = 20_000
      wall += (battery ? off : 0) + uptime
      clock = startTrustedClock(records, read)
    },
    async happens(fact: RunFact) {
      const event = stamp((await clock).now())(fact)
      await records.addEvents([{ event, canonical: canonicalJson(event) }], (await clock).now())
    }
  }
}

const ms = fc.integer({ min: 0, max: 20 * MINUTE })

/** `most` is how far somebody sets the wall clock at a time, ms. */
const inOneBoot = (most: number) =>
  fc.oneof(
    fc.record({ kind: fc.constant('pass' as const), ms }),
    fc.record({ kind: fc.constant('set' as const), ms: fc.integer({ min: -most, max: most }) }),
    fc.record({ kind: fc.constantFrom('keep' as const, 'restart' as const), ms: fc.constant(0) })
  )
/** A new boot believes the wall clock, so all of it together stays below the days after which a run is forgotten. */
const anything = fc.oneof(
  { weight: 4, arbitrary: inOneBoot(100 * MINUTE) },
  { weight: 1, arbitrary: fc.record({ kind: fc.constantFrom('power cut' as const, 'flat battery' as const), ms }) }
)

async function does(shop: ReturnType<typeof machine>, kind: string, time: number): Promise<void> {
  if (kind === 'pass') shop.pass(time)
  else if (kind === 'set') shop.setWall(time)
  else if (kind === 'keep') await shop.keep()
  else if (kind === 'restart') shop.restart()
  else shop.reboot(time, kind === 'power cut')
}

describe('while a run is open', () => {
  test('within one boot exactly the time that passes counts, whatever is restarted and however the wall is set', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(inOneBoot(400 * 24 * 60 * MINUTE), { maxLength: 30 }), async (course) => {
        const shop = machine()
        await shop.happens(STARTED)
        const began = await shop.now()
        let passed = 0
        for (const { kind, ms: time } of course) {
          await does(shop, kind, time)
          if (kind === 'pass') passed += time
          expect(Math.abs((await shop.now()) - began - passed)).toBeLessThanOrEqual(2)
        }
      })
    )
  })

  test('time never goes back behind what was kept, over any restarts, power cuts and wall clocks', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(anything, { maxLength: 30 }), async (course) => {
        const shop = machine()
        await shop.happens(STARTED)
        let kept = await shop.now()
        let given = kept
        for (const { kind, ms: time } of course) {
          await does(shop, kind, time)
          const now = await shop.now()
          // Every start keeps the time, too.
          if (kind !== 'pass' && kind !== 'set') kept = now
          expect(now).toBeGreaterThanOrEqual(kept - 1)
          // Only a machine without power can forget, and then no more than came after the last time kept.
          if (kind !== 'power cut' && kind !== 'flat battery') expect(now).toBeGreaterThanOrEqual(given - 1)
          given = now
        }
      })
    )
  })

  test('a power cut costs no waiting when the wall clock went on', async () => {
    const shop = machine()
    await shop.happens(STARTED)
    shop.pass(5 * MINUTE)
    await shop.keep()
    const before = await shop.now()
    shop.reboot(7 * MINUTE, true)
    expect((await shop.now()) - before).toBe(7 * MINUTE + 20_000)
  })
})

describe('with no run open', () => {
  test('a clock that was wrong at first is put right without a restart, and stays right', async () => {
    const shop = machine()
    await shop.keep()
    shop.setWall(3 * 365 * 24 * 60 * MINUTE)
    expect(await shop.now()).not.toBe(shop.wall())
    await shop.keep()
    expect(await shop.now()).toBe(shop.wall())
    await shop.happens(STARTED)
    shop.pass(MINUTE)
    shop.restart()
    expect(Math.abs((await shop.now()) - shop.wall())).toBeLessThanOrEqual(1)
  })

  test.each<RunFact>([{ type: 'run-finished' }, { type: 'run-abandoned', reason: 'No water.' }])(
    'as after $type: the wall clock counts again',
    async (ending) => {
      const shop = machine()
      await shop.happens(STARTED)
      shop.setWall(20 * MINUTE)
      await shop.keep()
      expect(await shop.now()).toBe(shop.wall() - 20 * MINUTE)
      await shop.happens(ending)
      await shop.keep()
      expect(await shop.now()).toBe(shop.wall())
    }
  )

  test('and a run that was forgotten for days is as good as none', async () => {
    const shop = machine()
    await shop.happens(STARTED)
    shop.setWall(20 * MINUTE)
    shop.pass(2 * 24 * 60 * MINUTE)
    await shop.keep()
    expect(await shop.now()).toBe(shop.wall() - 20 * MINUTE)
    shop.pass(2 * 24 * 60 * MINUTE)
    await shop.keep()
    expect(await shop.now()).toBe(shop.wall())
  })
})

test('time that cannot be stored goes on along its line, and the log says so', async () => {
  const records = memoryRecords()
  let wall = 1000
  const read = () => ({ bootId: 'boot', uptime: 5, wall })
  const logged: string[] = []
  const full = { ...records, keepTimeAnchor: () => Promise.reject(new Error('disk is full')) }
  const clock = await startTrustedClock(full, read, (message) => logged.push(message))
  wall = 900_000
  await clock.keep()
  expect(clock.now()).toBe(1000)
  expect(logged).toEqual(Array(2).fill('The time could not be kept: disk is full'))
})
