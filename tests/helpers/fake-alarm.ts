import { toldState } from '../../src/devices/told-state.ts'
import type { Alarm, AlarmState } from '../../src/ports/alarm.ts'
import type { Clock } from '../../src/ports/clock.ts'

export interface FakeAlarm extends Alarm {
  /** Tones that are handed over and neither cancelled nor sounded yet: key to due time on the steady line. */
  scheduled(): Readonly<Record<string, number>>
  /** Keys whose tone sounded by itself, in order. */
  readonly sounded: readonly string[]
  /** Urgency of every ring, in order. */
  readonly rings: readonly number[]
  ringing(): boolean
  /** The present ring ends; throws when nothing rings. */
  finish(): void
  become(state: AlarmState): void
  readonly unlocks: number
}

/** Rings end by hand, or take `ringMs` on the clock. Two rings at once throw. */
export function fakeAlarm(clock: Clock, ringMs: number | 'by-hand' = 'by-hand'): FakeAlarm {
  const state = toldState<AlarmState>({ kind: 'ready' })
  const scheduled = new Map<string, { readonly due: number; readonly cancel: () => void }>()
  const sounded: string[] = []
  const rings: number[] = []
  let endRing: (() => void) | null = null
  let unlocks = 0

  const finish = () => {
    if (!endRing) throw new Error('Nothing rings.')
    endRing()
  }

  return {
    unlock() {
      unlocks++
    },
    schedule(key, inMs) {
      scheduled.get(key)?.cancel()
      const due = clock.steady() + Math.max(0, inMs)
      const cancelTimer = clock.after(inMs, () => {
        scheduled.delete(key)
        if (state.now().kind === 'ready') sounded.push(key)
      })
      const cancel = () => {
        cancelTimer()
        if (scheduled.get(key) === one) scheduled.delete(key)
      }
      const one = { due, cancel }
      scheduled.set(key, one)
      return cancel
    },
    ring(urgency) {
      if (endRing) throw new Error(`Rang with urgency ${urgency} over another ring.`)
      rings.push(urgency)
      if (state.now().kind === 'silent') return Promise.resolve()
      return new Promise((resolve) => {
        let cancel = () => {}
        endRing = () => {
          cancel()
          endRing = null
          resolve()
        }
        if (ringMs !== 'by-hand') cancel = clock.after(ringMs, finish)
      })
    },
    silence() {
      endRing?.()
    },
    state: state.now,
    onState: state.onChange,

    scheduled: () => Object.fromEntries([...scheduled].map(([key, { due }]) => [key, due])),
    sounded,
    rings,
    ringing: () => endRing !== null,
    finish,
    become: state.set,
    get unlocks() {
      return unlocks
    }
  }
}
