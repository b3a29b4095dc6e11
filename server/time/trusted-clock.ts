/** Trusted time for the routes, kept in step with the store. */
import type { Records, TimeAnchor } from '../storage/records.ts'
import { anchorAtStart, trustedAt, type MachineReading } from './server-time.ts'

export interface TrustedClock {
  /** Epoch ms. */
  now(): number
  /** Stores where time stands; called now and then, so that a restart goes on from there. */
  keep(): Promise<void>
}

export async function startTrustedClock(records: Records, read: () => MachineReading): Promise<TrustedClock> {
  const anchor: TimeAnchor = anchorAtStart(await records.timeAnchor(), read(), await records.hasOpenRuns())
  await records.keepTimeAnchor(anchor)
  return {
    now: () => Math.floor(trustedAt(anchor, read())),
    async keep() {
      const reading = read()
      await records.keepTimeAnchor({ bootId: reading.bootId, uptime: reading.uptime, trusted: trustedAt(anchor, reading) })
    }
  }
}
