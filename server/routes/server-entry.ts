/** Entries that the server makes itself: behind everything that is there, also what a device with a clock that is ahead has told. */
import type { Envelope, RunEvent } from '../../src/core/run/event.ts'

/** The device of such entries. */
const SERVER = 'server'

/** `events`: all of the run; `now`: trusted epoch ms. */
export function envelopeAfter(
  events: readonly RunEvent[],
  now: number,
  id: string
): Pick<Envelope, 'id' | 'at' | 'deviceAt' | 'device' | 'seq'> {
  const at = events.reduce((latest, event) => Math.max(latest, event.at + 1), now)
  const seq = 1 + events.filter(({ device }) => device === SERVER).length
  return { id, at, deviceAt: now, device: SERVER, seq }
}
