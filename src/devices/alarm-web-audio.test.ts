import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { fakeAudio } from '../../tests/helpers/fake-audio-context.ts'
import { fakeClock, promisesRun } from '../../tests/helpers/fake-clock.ts'
import type { AlarmState } from '../ports/alarm.ts'
import { burstOf } from './alarm-pattern.ts'
import { webAudioAlarm } from './alarm-web-audio.ts'

const STEP_MS = 10

async function world({ unlocked = true } = {}) {
  const clock = fakeClock()
  const audio = fakeAudio(clock)
  const audioSession = { type: 'auto' }
  const alarm = webAudioAlarm({ makeContext: audio.make, clock, audioSession })
  const states: AlarmState[] = []
  alarm.onState((state) => states.push(state))
  if (unlocked) {
    alarm.unlock()
    await promisesRun()
  }
  return {
    clock,
    audio,
    alarm,
    states,
    audioSession,
    /** Listens for `ms`; the times on the steady line at which a pulse began. */
    async listen(ms: number): Promise<readonly number[]> {
      const begins: number[] = []
      let quiet = audio.all.at(-1)?.audible().length === 0
      for (let at = 0; at < ms; at += STEP_MS) {
        await clock.pass(STEP_MS)
        const now = audio.all.at(-1)?.audible().length === 0
        if (quiet && !now) begins.push(clock.steady())
        quiet = now
      }
      return begins
    },
    /** Begins to ring; `over` turns true at its end. */
    async ring(urgency: number) {
      const ringing = { over: false }
      void alarm.ring(urgency).then(() => (ringing.over = true))
      await promisesRun()
      return ringing
    }
  }
}

describe('unlocking', () => {
  test('is silent until a tap, ready after it', async () => {
    const it = await world({ unlocked: false })
    expect(it.alarm.state()).toEqual({ kind: 'silent', reason: 'needs-tap' })
    expect(it.audio.all).toHaveLength(0)
    it.alarm.unlock()
    await promisesRun()
    expect(it.alarm.state()).toEqual({ kind: 'ready' })
    expect(it.audioSession.type).toBe('play-and-record')
  })

  test('tapping again makes no second context', async () => {
    const it = await world()
    it.alarm.unlock()
    await promisesRun()
    expect(it.audio.all).toHaveLength(1)
  })

  test('a tap that does not count leaves it silent', async () => {
    const it = await world({ unlocked: false })
    it.audio.resuming = 'rejects'
    it.alarm.unlock()
    await promisesRun()
    expect(it.alarm.state()).toEqual({ kind: 'silent', reason: 'needs-tap' })
  })

  test('no sound hardware: says so, and the next tap tries again', async () => {
    const it = await world({ unlocked: false })
    it.audio.throwNext()
    it.alarm.unlock()
    expect(it.alarm.state()).toEqual({ kind: 'silent', reason: 'no-sound' })
    it.alarm.unlock()
    await promisesRun()
    expect(it.alarm.state()).toEqual({ kind: 'ready' })
  })

  test('no Web Audio: silent, and ringing does not hang', async () => {
    const alarm = webAudioAlarm({ makeContext: null, clock: fakeClock(), audioSession: null })
    alarm.unlock()
    alarm.schedule('left', 10)()
    await alarm.ring(3)
    alarm.silence()
    expect(alarm.state()).toEqual({ kind: 'silent', reason: 'no-sound' })
    expect(alarm.level()).toBe(0)
  })
})

describe('ringing', () => {
  test.each([0, 1, 2, 3])('urgency %i sounds its pulses and resolves at its end', async (urgency) => {
    const it = await world()
    const burst = burstOf(urgency)
    const ringing = await it.ring(urgency)
    const begins = await it.listen(burst.lengthMs)
    expect(begins).toHaveLength(burst.pulses.length)
    expect(ringing.over).toBe(false)
    await it.clock.pass(20)
    expect(ringing.over).toBe(true)
    expect(await it.listen(3000)).toEqual([])
  })

  test('the level tells that something is heard', async () => {
    const it = await world()
    expect(it.alarm.level()).toBe(0)
    void it.alarm.ring(0)
    it.clock.advance(50)
    expect(it.alarm.level()).toBe(0.5)
  })

  test('silence ends it at once', async () => {
    const it = await world()
    const ringing = await it.ring(3)
    await it.clock.pass(100)
    it.alarm.silence()
    await promisesRun()
    expect(ringing.over).toBe(true)
    await it.clock.pass(30)
    expect(it.audio.last().audible()).toEqual([])
    expect(await it.listen(5000)).toEqual([])
  })

  test('resolves at once when nothing can be heard', async () => {
    const it = await world({ unlocked: false })
    expect((await it.ring(2)).over).toBe(true)
  })
})

describe('scheduling', () => {
  test('sounds on time, once', async () => {
    const it = await world()
    it.alarm.schedule('left', 1500)
    const begins = await it.listen(10_000)
    expect(begins).toHaveLength(2)
    expect(begins[0]).toBeGreaterThanOrEqual(1500)
    expect(begins[0]).toBeLessThanOrEqual(1510)
  })

  test('the same key replaces, and a cancel of the replaced one does nothing', async () => {
    const it = await world()
    const cancelFirst = it.alarm.schedule('left', 500)
    const cancelSecond = it.alarm.schedule('left', 2000)
    cancelFirst()
    const begins = await it.listen(3500)
    expect(begins).toHaveLength(2)
    expect(begins[0]).toBeGreaterThanOrEqual(2000)
    it.alarm.schedule('left', 500)
    cancelSecond()
    expect(await it.listen(2000)).toHaveLength(2)
  })

  test('a cancel before, and while it sounds', async () => {
    const it = await world()
    it.alarm.schedule('left', 500)()
    expect(await it.listen(2000)).toEqual([])
    const cancel = it.alarm.schedule('left', 500)
    expect(await it.listen(600)).toHaveLength(1)
    cancel()
    expect(await it.listen(2000)).toEqual([])
  })

  test('silence leaves the later ones', async () => {
    const it = await world()
    it.alarm.schedule('left', 100)
    it.alarm.schedule('right', 3000)
    await it.clock.pass(200)
    it.alarm.silence()
    const begins = await it.listen(6000)
    expect(begins).toHaveLength(2)
    expect(begins[0]).toBeGreaterThanOrEqual(3000)
  })

  test('a ring for the same alarm joins it; an urgent one takes its place', async () => {
    const it = await world()
    it.alarm.schedule('left', 500)
    await it.clock.pass(510)
    const joined = await it.ring(0)
    expect(await it.listen(burstOf(0).lengthMs)).toHaveLength(1)
    expect(joined.over).toBe(true)

    it.alarm.schedule('left', 500)
    await it.clock.pass(520)
    void it.alarm.ring(3)
    await it.clock.pass(50)
    expect(it.audio.last().audible()).toEqual([burstOf(3).pulses[0]?.hertz])
  })

  test('a ring long before it does not join it', async () => {
    const it = await world()
    it.alarm.schedule('left', 5000)
    void it.alarm.ring(0)
    expect(await it.listen(8000)).toHaveLength(4)
  })

  test('what was scheduled before the tap sounds after it', async () => {
    const it = await world({ unlocked: false })
    it.alarm.schedule('left', 2000)
    it.alarm.schedule('right', 100)
    await it.clock.pass(1000)
    it.alarm.unlock()
    const begins = await it.listen(4000)
    expect(begins).toHaveLength(4)
    expect(begins[0]).toBeLessThanOrEqual(1050)
    expect(begins[2]).toBeGreaterThanOrEqual(2000)
  })
})

describe('sound that is taken away', () => {
  test('interrupted: silent at once, and on time again when it comes back before the tone', async () => {
    const it = await world()
    it.alarm.schedule('left', 20_000)
    it.audio.resuming = 'never-answers'
    await it.clock.pass(5000)
    it.audio.last().become('interrupted')
    expect(it.alarm.state()).toEqual({ kind: 'silent', reason: 'needs-tap' })
    await it.clock.pass(8000)
    it.audio.last().become('running')
    expect(it.alarm.state()).toEqual({ kind: 'ready' })
    const begins = await it.listen(15_000)
    expect(begins).toHaveLength(2)
    expect(begins[0]).toBeGreaterThanOrEqual(20_000)
    expect(begins[0]).toBeLessThanOrEqual(20_020)
  })

  test('interrupted over its time: sounds as soon as it can, once', async () => {
    const it = await world()
    it.alarm.schedule('left', 2000)
    it.audio.resuming = 'never-answers'
    it.audio.last().become('interrupted')
    await it.clock.pass(60_000)
    it.audio.last().become('running')
    const begins = await it.listen(10_000)
    expect(begins).toHaveLength(2)
    expect(begins[0]).toBeLessThanOrEqual(62_000)
  })

  test('tries to resume by itself every second', async () => {
    const it = await world()
    it.audio.last().become('suspended')
    await it.clock.pass(1000)
    expect(it.alarm.state()).toEqual({ kind: 'ready' })
  })

  test('a clock that stands still: a new context, and the tone still on time', async () => {
    const it = await world()
    it.alarm.schedule('left', 20_000)
    await it.clock.pass(3000)
    it.audio.last().freeze()
    const begins = await it.listen(22_000)
    expect(it.audio.all).toHaveLength(2)
    expect(it.audio.all[0]?.closed).toBe(true)
    expect(it.alarm.state()).toEqual({ kind: 'ready' })
    expect(begins).toHaveLength(2)
    expect(begins[0]).toBeGreaterThanOrEqual(20_000)
    expect(begins[0]).toBeLessThanOrEqual(20_100)
    expect(it.states).toContainEqual({ kind: 'silent', reason: 'no-sound' })
  })

  test('one that stays frozen looks dead, and is not rebuilt every second', async () => {
    const it = await world()
    it.audio.resuming = 'runs-frozen'
    it.audio.last().freeze()
    await it.clock.pass(3000)
    expect(it.alarm.state()).toEqual({ kind: 'silent', reason: 'no-sound' })
    await it.clock.pass(57_000)
    expect(it.alarm.state()).toEqual({ kind: 'silent', reason: 'no-sound' })
    expect(it.audio.all.length).toBeGreaterThan(3)
    expect(it.audio.all.length).toBeLessThan(9)
    it.audio.resuming = 'works'
    await it.clock.pass(15_000)
    expect(it.alarm.state()).toEqual({ kind: 'ready' })
  })

  test('a drifting audio clock is set right, so that the tone is on time to a tenth of a second', async () => {
    const it = await world()
    it.alarm.schedule('left', 600_000)
    for (let minute = 0; minute < 9; minute++) {
      await it.clock.pass(60_000 - 40)
      // Forty milliseconds a minute is far more than real hardware drifts.
      it.audio.last().become('suspended')
      it.clock.advance(40)
      it.audio.last().become('running')
    }
    const begins = await it.listen(63_000)
    expect(begins[0]).toBeGreaterThanOrEqual(599_900)
    expect(begins[0]).toBeLessThanOrEqual(600_110)
  })
})

test('whatever happens to the sound, a tone that was not cancelled is heard, and never before its time', async () => {
  const trouble = fc.record({
    what: fc.constantFrom('interrupted', 'suspended', 'freeze', 'ring', 'unlock'),
    afterMs: fc.integer({ min: 10, max: 4000 })
  })
  await fc.assert(
    fc.asyncProperty(fc.array(trouble, { maxLength: 6 }), fc.integer({ min: 0, max: 9000 }), async (troubles, inMs) => {
      const it = await world()
      it.alarm.schedule('left', inMs)
      let heardAt: number | null = null
      const hear = async (ms: number) => {
        for (let at = 0; at < ms; at += STEP_MS) {
          await it.clock.pass(STEP_MS)
          if (it.audio.last().audible().length > 0) heardAt ??= it.clock.steady()
        }
      }
      for (const { what, afterMs } of troubles) {
        if (what === 'freeze') it.audio.last().freeze()
        else if (what === 'unlock') it.alarm.unlock()
        else if (what === 'ring') await it.ring(0).then(() => it.alarm.silence())
        else it.audio.last().become(what)
        await hear(afterMs)
      }
      // A sound that froze twice is not made anew at once: up to some ten seconds.
      await hear(inMs + 15_000)
      expect(heardAt).not.toBe(null)
      // A ring that is silenced at once fades within 20 ms.
      expect(heardAt).toBeGreaterThanOrEqual(troubles.some(({ what }) => what === 'ring') ? 0 : inMs - 100)
    }),
    { numRuns: 40 }
  )
})
