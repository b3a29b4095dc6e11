/**
 * How a newer version of the page comes into service: the page asks for it, and the newer version's worker looks for
 * itself whether any tab has a run open. A run holds a lock for as long as its tab shows it.
 */
import { VOICE_LOCK } from '../ports/locks.ts'

const TAKE_OVER = 'take-over'
const HELD_BACK = 'held-back'

/** Page's side: asks a waiting worker. `heldBack` is told when a tab has a run open. */
export function askToTakeOver(worker: Pick<ServiceWorker, 'postMessage'>, heldBack: () => void): void {
  const { port1, port2 } = new MessageChannel()
  port1.addEventListener('message', ({ data }) => {
    if (data === HELD_BACK) heldBack()
    port1.close()
  })
  port1.start()
  worker.postMessage(TAKE_OVER, [port2])
}

export interface TakeOverParts {
  /** Null where the browser has none: then a newer version waits until no tab has the page open. */
  readonly locks: Pick<LockManager, 'request'> | null
  readonly skipWaiting: () => Promise<void>
}

/** Worker's side: takes over unless a run is open. */
export async function takeOverIfAsked(
  { data, ports }: Pick<MessageEvent<unknown>, 'data' | 'ports'>,
  { locks, skipWaiting }: TakeOverParts
): Promise<void> {
  if (data !== TAKE_OVER) return
  const answer = (isTaken: boolean) => ports[0]?.postMessage(isTaken ? TAKE_OVER : HELD_BACK)
  if (!locks) return answer(false)
  await locks.request(VOICE_LOCK, { ifAvailable: true }, async (lock) => {
    if (lock) await skipWaiting()
    answer(lock !== null)
  })
}
