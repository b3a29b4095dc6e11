import type { Clock } from '../ports/clock.ts'
import type { Waker } from '../ports/waker.ts'

/** What the page sends to the worker. A number is used for one waking only. */
export type WakeOrder =
  | { readonly kind: 'wake'; readonly number: number; readonly inMs: number }
  | { readonly kind: 'cancel'; readonly number: number }

/** What the worker answers when a time has come. */
export interface WokenUp {
  readonly number: number
}

/** The part of a worker that is used here. */
export interface WakerWorker {
  postMessage(order: WakeOrder): void
  addEventListener(type: 'message', listener: (event: { readonly data: WokenUp }) => void): void
  addEventListener(type: 'error', listener: () => void): void
  terminate(): void
}

interface Waking {
  readonly key: string
  readonly number: number
  readonly dueSteady: number
  readonly wake: () => void
}

/** A worker that fails this often is broken for good; the first path goes on alone. */
const MOST_WORKERS = 3

export function startWakerWorker(): WakerWorker {
  return new Worker(new URL('./waker.worker.ts', import.meta.url), { type: 'module' })
}

export function workerWaker(startWorker: () => WakerWorker, clock: Clock): Waker {
  const wakings = new Map<string, Waking>()
  let lastNumber = 0
  let started = 0
  let worker: WakerWorker | null = null

  const send = (order: WakeOrder) => {
    // oxlint-disable-next-line unicorn/require-post-message-target-origin -- that is for windows, a worker has none
    worker?.postMessage(order)
  }
  const order = ({ number, dueSteady }: Waking) =>
    send({ kind: 'wake', number, inMs: Math.max(0, dueSteady - clock.steady()) })

  const start = () => {
    if (started >= MOST_WORKERS) return
    started++
    try {
      const mine = startWorker()
      worker = mine
      mine.addEventListener('message', ({ data }) => {
        const waking = [...wakings.values()].find((one) => one.number === data.number)
        if (!waking) return
        wakings.delete(waking.key)
        waking.wake()
      })
      mine.addEventListener('error', () => {
        if (worker !== mine) return
        mine.terminate()
        worker = null
        start()
      })
      for (const waking of wakings.values()) order(waking)
    } catch {
      // Workers are forbidden here (a content security policy, say).
      worker = null
    }
  }
  const cancel = (waking: Waking) => {
    if (wakings.get(waking.key) !== waking) return
    wakings.delete(waking.key)
    send({ kind: 'cancel', number: waking.number })
  }

  start()
  return {
    wakeIn(key, inMs, wake) {
      const before = wakings.get(key)
      if (before) cancel(before)
      const waking = { key, number: ++lastNumber, dueSteady: clock.steady() + inMs, wake }
      wakings.set(key, waking)
      order(waking)
      return () => cancel(waking)
    },
    close() {
      wakings.clear()
      worker?.terminate()
      worker = null
      started = MOST_WORKERS
    }
  }
}
