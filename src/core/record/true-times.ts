/** When entries were really made, as far as the devices found out later that their time had lagged. */
import type { RunEvent } from '../run/event.ts'
import type { Visited } from './walk.ts'

/**
 * Trusted epoch ms, with all that the device caught up with the server since, up to which it may have lagged. Of two
 * entries of one device the difference stays as it was.
 */
export function trueTimes(visits: readonly Visited[]): (event: RunEvent) => number {
  const caughtUp = visits.flatMap(({ event, counts }) =>
    event.type === 'clock-caught-up' && counts === 'yes' ? [event] : []
  )
  return (event) =>
    caughtUp.reduce(
      (at, { device, since, byMs, at: until }) =>
        device === event.device && event.at >= since && event.at < until ? at + byMs : at,
      event.at
    )
}
