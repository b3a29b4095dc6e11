/** Everything that can be touched, offered one after the other to somebody with a single switch. */
import { atom, type ReadableAtom } from 'nanostores'

/** Rounds without an answer after which nobody seems to be there. */
export const SCAN_ROUNDS = 3

export interface Scan {
  readonly $on: ReadableAtom<boolean>
  /** Begins anew, from the first. */
  start(): void
  stop(): void
  /** The switch was pressed: takes what is offered. */
  take(): void
  /** Whoever shows what is offered hears of the press, until the returned function is called. */
  onTake(taken: () => void): () => void
}

export function openScan(): Scan {
  const $on = atom(false)
  let taken: (() => void) | null = null
  return {
    $on,
    start() {
      $on.set(false)
      $on.set(true)
    },
    stop: () => $on.set(false),
    take: () => taken?.(),
    onTake(heard) {
      taken = heard
      return () => {
        if (taken === heard) taken = null
      }
    }
  }
}
