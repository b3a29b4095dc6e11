/** Trusted time for the routes, kept in step with the store. */
import type { Records } from '../storage/records.ts'
import { nextAnchor, trustedAt, type MachineReading } from './server-time.ts'

export interface TrustedClock {
  /** Epoch ms. */
  now(): number
  /** Stores where time stands, so that a restart goes on from there; called every few seconds. Rejects when it cannot. */
  keep(): Promise<void>
}

export async function startTrustedClock(records: Records, read: () => MachineReading): Promise<TrustedClock> {
  let anchor = nextAnchor(await records.timeAnchor(), read(), await records.hasOpenRuns())
  return {
    now: () => Math.floor(trustedAt(anchor, read())),
    async keep() {
      const next = nextAnchor(anchor, read(), await records.hasOpenRuns())
      // Stored first: after a restart time must go on along the line it was given out from.
      await records.keepTimeAnchor(next)
      anchor = next
    }
  }
}
