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
 * Where trusted time stands now, given where it stood before. While a run is open it goes on with the boot clock; after
 * a new boot only the wall clock can tell how long the machine was off, and at least the time since that boot has
 * passed. With no run open nothing depends on it, and the wall clock is taken as it is, so that a clock that was wrong
 * when the machine started (many have no battery) does not stay in the records.
 */
export function nextAnchor(kept: TimeAnchor | null, reading: MachineReading, openRuns: boolean): TimeAnchor {
  const { bootId, uptime, wall } = reading
  if (kept === null || !openRuns) return { bootId, uptime, trusted: wall }
  if (isSameBoot(kept, reading)) return { bootId, uptime, trusted: trustedAt(kept, reading) }
  return { bootId, uptime, trusted: Math.max(wall, kept.trusted + uptime * 1000) }
}

/** Epoch ms, in the anchor's boot. */
export function trustedAt(anchor: TimeAnchor, reading: MachineReading): number {
  return anchor.trusted + Math.max(0, reading.uptime - anchor.uptime) * 1000
}

function isSameBoot(kept: TimeAnchor, { bootId, uptime }: MachineReading): boolean {
  return kept.bootId === bootId && uptime >= kept.uptime
}
