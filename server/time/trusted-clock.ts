/** Trusted time for the routes, kept in step with the store. */
import type { Records, TimeAnchor } from '../storage/records.ts'
import { nextAnchor, trustedAt, type MachineReading } from './server-time.ts'

export interface TrustedClock {
  /** Epoch ms. */
  now(): number
  /** Stores where time stands, so that a restart goes on from there; called every few seconds. */
  keep(): Promise<void>
}

/** A run that nobody has touched for this long was forgotten; it must not keep a wrong clock wrong for ever. */
const FORGOTTEN_AFTER_MS = 3 * 24 * 3600 * 1000

/** Goes on when time cannot be stored, on a full disk say: what is kept can still be read. `log` hears of it. */
export async function startTrustedClock(
  records: Records,
  read: () => MachineReading,
  log: (message: string) => void = console.error
): Promise<TrustedClock> {
  async function next(from: TimeAnchor | null): Promise<TimeAnchor> {
    const goesOn = nextAnchor(from, read(), true)
    return (await records.hasOpenRuns(goesOn.trusted - FORGOTTEN_AFTER_MS)) ? goesOn : nextAnchor(from, read(), false)
  }

  async function keep(): Promise<void> {
    try {
      const kept = await next(anchor)
      // Stored first: after a restart time must go on along the line it was given out from.
      await records.keepTimeAnchor(kept)
      anchor = kept
    } catch (error) {
      log(`The time could not be kept: ${error instanceof Error ? error.message : String(error)}`)
    }
  }

  let anchor = await next(await records.timeAnchor())
  await keep()
  return { now: () => Math.floor(trustedAt(anchor, read())), keep }
}
