/**
 * Keeps what an answer of the server means for waits that this device began while its time may have lagged: they are
 * due that much later. It is kept before the later time is believed, or a wait would be over at once.
 */
import type { RunEvent } from '../core/run/event.ts'
import type { CatchUp } from '../core/time/trusted-time.ts'
import type { Ports } from './ports.ts'

/** `at` is the server's trusted time, epoch ms. False: it could not be kept, and the time must not be believed yet. */
export async function keepCatchUp(
  { log, locks, clock, newId }: Pick<Ports, 'log' | 'locks' | 'clock' | 'newId'>,
  device: string,
  { since, byMs }: CatchUp,
  at: number
): Promise<boolean> {
  const ids = await log.runs()
  if (ids.kind === 'failed') return false
  for (const runId of ids.value) {
    const isKept = await locks.exclusively(`run ${runId}`, async () => {
      // What cannot be read whole is shown to nobody as a run, so nothing in it can be cut short.
      const read = await log.read(runId)
      if (read.kind === 'failed') return read.reason === 'corrupt'
      const events = read.value
      if (!events.some((event) => event.device === device && event.at >= since && mayBeginWait(event))) return true
      const caughtUp: RunEvent = {
        id: newId(),
        runId,
        at: events.reduce((latest, event) => Math.max(latest, event.at), Math.ceil(at)) + 1,
        deviceAt: clock.wall(),
        device,
        seq: events.reduce((last, event) => (event.device === device ? Math.max(last, event.seq) : last), 0) + 1,
        by: '',
        via: 'app',
        type: 'clock-caught-up',
        since,
        byMs
      }
      return (await log.append([caughtUp])).kind === 'kept'
    })
    if (!isKept) return false
  }
  return true
}

function mayBeginWait({ type }: RunEvent): boolean {
  return type === 'step-done' || type === 'check-answered' || type === 'entries-lost'
}
