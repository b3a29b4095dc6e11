import type { Clock } from '../ports/clock.ts'

/** The part of a window or a worker that this clock needs. */
export interface ClockHost {
  readonly Date: { now(): number }
  readonly performance: { now(): number }
  setTimeout(call: () => void, ms: number): unknown
  clearTimeout(handle: unknown): void
}

/** Browsers keep the delay in a signed 32-bit number; a longer one fires at once (HTML Standard, timers). */
const LONGEST_TIMER_MS = 2 ** 31 - 1

export function browserClock(host: ClockHost = globalThis): Clock {
  const steady = () => host.performance.now()
  return {
    wall: () => host.Date.now(),
    steady,
    after(ms, call) {
      if (Number.isNaN(ms)) throw new TypeError('A timer needs a number of milliseconds, and got NaN.')
      const due = steady() + ms
      let handle: unknown
      const wait = (left: number) => {
        handle = host.setTimeout(
          () => {
            // Timers are rounded and may fire up to a millisecond before the steady line says so.
            const still = due - steady()
            if (still > 0) wait(still)
            else call()
          },
          Math.min(Math.max(0, Math.ceil(left)), LONGEST_TIMER_MS)
        )
      }
      wait(ms)
      return () => host.clearTimeout(handle)
    }
  }
}
