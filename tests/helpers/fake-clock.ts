import type { Clock } from '../../src/ports/clock.ts'

/** Time that moves only when a test says so. Timers run in order of their due time, then of their setting. */
export interface FakeClock extends Clock {
  /** Both lines go forward; every timer that falls due runs at its own instant. */
  advance(ms: number): void
  /** As `advance`, and lets promises run after each timer. */
  pass(ms: number): Promise<void>
  /** Someone sets the wall clock; may go back. No timer runs. */
  moveWall(ms: number): void
  /** The device sleeps: the wall goes on, the steady line and the timers stand still. */
  sleep(ms: number): void
  /** How many timers are set and not yet run or cancelled. */
  pending(): number
}

interface Timer {
  readonly due: number
  readonly order: number
  readonly call: () => void
}

export function fakeClock(wallAtStart = Date.UTC(2026, 0, 5, 6, 0, 0)): FakeClock {
  let wall = wallAtStart
  let steady = 0
  let order = 0
  let busy = false
  const timers = new Set<Timer>()

  const forward = (ms: number, verb: string) => {
    if (!(ms >= 0)) throw new Error(`The fake clock cannot ${verb} by ${ms} ms: time does not go back.`)
  }
  const moveTo = (to: number) => {
    wall += to - steady
    steady = to
  }
  const nextDue = (until: number): Timer | null => {
    let first: Timer | null = null
    for (const timer of timers) {
      if (timer.due > until) continue
      if (!first || timer.due < first.due || (timer.due === first.due && timer.order < first.order)) first = timer
    }
    return first
  }
  /** Runs the next timer due by `until`; false when there is none. */
  const runNext = (until: number): boolean => {
    const timer = nextDue(until)
    if (!timer) return false
    timers.delete(timer)
    moveTo(Math.max(steady, timer.due))
    timer.call()
    return true
  }
  const alone = () => {
    if (busy) throw new Error('The fake clock is already advancing; a timer must not advance it again.')
    busy = true
  }

  return {
    wall: () => wall,
    steady: () => steady,
    after(ms, call) {
      if (Number.isNaN(ms)) throw new TypeError('A timer needs a number of milliseconds, and got NaN.')
      const timer = { due: steady + Math.max(0, ms), order: order++, call }
      timers.add(timer)
      return () => void timers.delete(timer)
    },
    advance(ms) {
      forward(ms, 'advance')
      alone()
      const until = steady + ms
      try {
        while (runNext(until));
        moveTo(until)
      } finally {
        busy = false
      }
    },
    async pass(ms) {
      forward(ms, 'pass')
      alone()
      const until = steady + ms
      try {
        await promisesRun()
        while (runNext(until)) await promisesRun()
        moveTo(until)
      } finally {
        busy = false
      }
      await promisesRun()
    },
    moveWall(ms) {
      if (!Number.isFinite(ms)) throw new Error(`The fake clock cannot move its wall by ${ms} ms.`)
      wall += ms
    },
    sleep(ms) {
      forward(ms, 'sleep')
      wall += ms
    },
    pending: () => timers.size
  }
}

/** Lets everything that waits only for promises go as far as it can. */
export function promisesRun(): Promise<void> {
  return new Promise((resolve) => setImmediate(resolve))
}
