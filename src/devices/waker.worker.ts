/** Runs as a worker: timers of its own, which a busy or throttled page does not hold up. */
import { browserClock } from './clock-browser.ts'
import type { WakeOrder, WokenUp } from './waker-worker.ts'

const clock = browserClock()
const cancels = new Map<number, () => void>()

addEventListener('message', (event: MessageEvent<WakeOrder>) => {
  const order = event.data
  cancels.get(order.number)?.()
  cancels.delete(order.number)
  if (order.kind === 'cancel') return
  const wake = () => {
    cancels.delete(order.number)
    postMessage({ number: order.number } satisfies WokenUp)
  }
  cancels.set(order.number, clock.after(order.inMs, wake))
})
