import type { Clock } from '../../src/ports/clock.ts'
import type { Waker } from '../../src/ports/waker.ts'

export interface FakeWaker extends Waker {
  /** Wakings that are set: key to due time on the steady line. */
  due(): Readonly<Record<string, number>>
  /** The worker wakes, by hand: the second path is there for when the first does not come. Not before its time. */
  fire(key: string): void
}

export function fakeWaker(clock: Clock): FakeWaker {
  const wakings = new Map<string, { readonly due: number; readonly wake: () => void }>()
  let closed = false
  return {
    wakeIn(key, inMs, wake) {
      if (closed) throw new Error(`The waker is closed and cannot wake "${key}".`)
      const one = { due: clock.steady() + inMs, wake }
      wakings.set(key, one)
      return () => {
        if (wakings.get(key) === one) wakings.delete(key)
      }
    },
    close() {
      closed = true
      wakings.clear()
    },
    due: () => Object.fromEntries([...wakings].map(([key, { due }]) => [key, due])),
    fire(key) {
      const one = wakings.get(key)
      if (!one) throw new Error(`Nothing is to be woken as "${key}".`)
      if (clock.steady() < one.due) throw new Error(`"${key}" is not due for ${one.due - clock.steady()} ms yet.`)
      wakings.delete(key)
      one.wake()
    }
  }
}
