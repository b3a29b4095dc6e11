/** The server's trusted time: it follows the machine's boot clock, so that setting the wall clock shortens no wait. */
import type { TimeAnchor } from '../storage/records.ts'

export interface MachineReading {
  /** Tells one boot of the machine from another. */
  readonly bootId: string
  /** Seconds since the boot, sleep included. */
  readonly uptime: number
  /** Wall clock, epoch ms. */
  readonly wall: number
}

/**
 * Where trusted time stands when the server starts. In the same boot it goes on from the anchor; after a new boot only
 * the wall clock can tell how long the machine was off, and time still never goes back. With no run open nothing
 * depends on it, and the wall clock is taken as it is.
 */
export function anchorAtStart(kept: TimeAnchor | null, reading: MachineReading, openRuns: boolean): TimeAnchor {
  const { bootId, uptime, wall } = reading
  if (kept === null || !openRuns) return { bootId, uptime, trusted: wall }
  if (kept.bootId === bootId && uptime >= kept.uptime) return { bootId, uptime, trusted: trustedAt(kept, reading) }
  return { bootId, uptime, trusted: Math.max(wall, kept.trusted) }
}

/** Epoch ms. */
export function trustedAt(anchor: TimeAnchor, reading: MachineReading): number {
  return anchor.trusted + Math.max(0, reading.uptime - anchor.uptime) * 1000
}
