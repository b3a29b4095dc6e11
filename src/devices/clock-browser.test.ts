import { describe, expect, test } from 'vitest'
import { browserClock, type ClockHost } from './clock-browser.ts'

/** A host whose timers fire exactly when the test says so, even too early. */
function host() {
  let now = 1000
  let last = 0
  const timers = new Map<number, { call: () => void; ms: number }>()
  const it: ClockHost = {
    Date: { now: () => 1_700_000_000_000 },
    performance: { now: () => now },
    setTimeout(call, ms) {
      timers.set(++last, { call, ms })
      return last
    },
    clearTimeout: (handle) => void timers.delete(handle as number)
  }
  return {
    it,
    delays: () => [...timers.values()].map((timer) => timer.ms),
    fireAfter(ms: number) {
      now += ms
      const [first] = timers
      if (!first) throw new Error('No timer is set.')
      timers.delete(first[0])
      first[1].call()
    }
  }
}

describe('browser clock', () => {
  test('reads the wall and the steady line of its host', () => {
    const clock = browserClock(host().it)
    expect(clock.wall()).toBe(1_700_000_000_000)
    expect(clock.steady()).toBe(1000)
  })

  test('waits on when the browser fires a little early', () => {
    const browser = host()
    let calls = 0
    browserClock(browser.it).after(250, () => calls++)
    browser.fireAfter(249.4)
    expect(calls).toBe(0)
    expect(browser.delays()).toEqual([1])
    browser.fireAfter(1)
    expect(calls).toBe(1)
    expect(browser.delays()).toEqual([])
  })

  test('does not overflow on a delay of a month', () => {
    const browser = host()
    let calls = 0
    const month = 31 * 24 * 3600 * 1000
    browserClock(browser.it).after(month, () => calls++)
    expect(browser.delays()).toEqual([2 ** 31 - 1])
    browser.fireAfter(2 ** 31 - 1)
    expect(calls).toBe(0)
    browser.fireAfter(month - (2 ** 31 - 1))
    expect(calls).toBe(1)
  })

  test('cancels, also after it waited on', () => {
    const browser = host()
    const cancel = browserClock(browser.it).after(100, () => expect.unreachable())
    browser.fireAfter(99)
    cancel()
    expect(browser.delays()).toEqual([])
  })

  test('a delay in the past is now; one that is not a number is a fault of the caller', () => {
    const browser = host()
    const clock = browserClock(browser.it)
    clock.after(-5, () => {})
    expect(browser.delays()).toEqual([0])
    expect(() => clock.after(Number.NaN, () => {})).toThrow('NaN')
  })

  test('runs on the real host', async () => {
    const clock = browserClock()
    const begin = clock.steady()
    await new Promise<void>((resolve) => clock.after(1, resolve))
    expect(clock.steady() - begin).toBeGreaterThanOrEqual(1)
  })
})
