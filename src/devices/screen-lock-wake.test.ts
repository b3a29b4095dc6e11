import fc from 'fast-check'
import { expect, test } from 'vitest'
import { fakeClock, promisesRun } from '../../tests/helpers/fake-clock.ts'
import { listeners } from './listeners.ts'
import type { PageMoment } from './page-visibility.ts'
import { wakeScreenLock, type WakeLockHold } from './screen-lock-wake.ts'

function world({ supported = true } = {}) {
  const clock = fakeClock()
  const moments = listeners<PageMoment>()
  const holds: (WakeLockHold & { drop(): void })[] = []
  let visible = true
  let willing = true
  let asked = 0
  const giver = {
    async request() {
      asked++
      if (holds.some((one) => !one.released)) throw new Error('Asked for a second lock while one is held.')
      if (!visible || !willing) throw new DOMException('not now', 'NotAllowedError')
      let released = false
      const hold = Object.assign(new EventTarget(), {
        drop() {
          if (released) return
          released = true
          hold.dispatchEvent(new Event('release'))
        },
        release: async () => hold.drop()
      })
      Object.defineProperty(hold, 'released', { get: () => released })
      holds.push(hold as (typeof holds)[number])
      return hold as (typeof holds)[number]
    }
  }
  const lock = wakeScreenLock(supported ? giver : null, { visible: () => visible, onMoment: moments.add }, clock)
  return {
    clock,
    lock,
    asked: () => asked,
    held: () => holds.filter((one) => !one.released).length,
    drop: () => holds.at(-1)?.drop(),
    allow(now: boolean) {
      willing = now
    },
    show(now: boolean) {
      if (now === visible) return
      visible = now
      // The system drops the lock of a hidden page before it says that the page is hidden.
      if (!now) holds.at(-1)?.drop()
      moments.tell(now ? 'visible' : 'hidden')
    }
  }
}

test('keeps, and lets go', async () => {
  const it = world()
  expect(it.lock.state()).toEqual({ kind: 'off' })
  it.lock.keep()
  it.lock.keep()
  await promisesRun()
  expect(it.lock.state()).toEqual({ kind: 'kept' })
  expect(it.asked()).toBe(1)
  it.lock.release()
  expect(it.lock.state()).toEqual({ kind: 'off' })
  expect(it.held()).toBe(0)
  expect(it.clock.pending()).toBe(0)
})

test('let go while still asking: what is given is given back', async () => {
  const it = world()
  it.lock.keep()
  it.lock.release()
  await promisesRun()
  expect(it.held()).toBe(0)
  expect(it.lock.state()).toEqual({ kind: 'off' })
})

test('let go and kept again while still asking: one lock is held', async () => {
  const it = world()
  it.lock.keep()
  it.lock.release()
  it.lock.keep()
  await promisesRun()
  expect(it.held()).toBe(1)
  expect(it.lock.state()).toEqual({ kind: 'kept' })
})

test('hidden: lost; visible: taken again', async () => {
  const it = world()
  it.lock.keep()
  await promisesRun()
  it.show(false)
  expect(it.lock.state()).toEqual({ kind: 'lost', reason: 'hidden' })
  expect(it.clock.pending()).toBe(0)
  it.show(true)
  await promisesRun()
  expect(it.lock.state()).toEqual({ kind: 'kept' })
})

test('dropped by the system: says so, and takes it again after a moment', async () => {
  const it = world()
  it.lock.keep()
  await promisesRun()
  it.drop()
  expect(it.lock.state()).toEqual({ kind: 'lost', reason: 'refused' })
  await it.clock.pass(999)
  expect(it.asked()).toBe(1)
  await it.clock.pass(1)
  expect(it.lock.state()).toEqual({ kind: 'kept' })
})

test('refused: asks ever more seldom, up to a minute, and again at once when the page is shown', async () => {
  const it = world()
  it.allow(false)
  it.lock.keep()
  await promisesRun()
  expect(it.lock.state()).toEqual({ kind: 'lost', reason: 'refused' })
  await it.clock.pass(1000 + 2000 + 4000)
  expect(it.asked()).toBe(4)
  await it.clock.pass(600_000)
  expect(it.asked()).toBeLessThan(20)
  it.allow(true)
  it.show(false)
  it.show(true)
  await promisesRun()
  expect(it.lock.state()).toEqual({ kind: 'kept' })
})

test('unsupported says so', () => {
  const it = world({ supported: false })
  it.lock.keep()
  expect(it.lock.state()).toEqual({ kind: 'lost', reason: 'unsupported' })
  it.lock.release()
  expect(it.lock.state()).toEqual({ kind: 'off' })
})

test('in any order of events the state tells the truth', async () => {
  const move = fc.constantFrom('keep', 'release', 'hide', 'show', 'drop', 'allow', 'refuse', 'settle', 'wait')
  await fc.assert(
    fc.asyncProperty(fc.array(move, { maxLength: 25 }), async (moves) => {
      const it = world()
      let wanted = false
      for (const one of moves) {
        if (one === 'keep') it.lock.keep()
        if (one === 'release') it.lock.release()
        if (one === 'keep' || one === 'release') wanted = one === 'keep'
        if (one === 'hide' || one === 'show') it.show(one === 'show')
        if (one === 'drop') it.drop()
        if (one === 'allow' || one === 'refuse') it.allow(one === 'allow')
        if (one === 'settle') await promisesRun()
        if (one === 'wait') await it.clock.pass(2000)
      }
      it.allow(true)
      await it.clock.pass(120_000)
      const state = it.lock.state()
      expect(it.held()).toBe(state.kind === 'kept' ? 1 : 0)
      expect(state.kind === 'off').toBe(!wanted)
      it.show(true)
      await promisesRun()
      expect(it.lock.state().kind).toBe(wanted ? 'kept' : 'off')
    }),
    { numRuns: 200 }
  )
})
