/** How worn the parts of each machine are, by its records. */
import { setImmediate as turn } from 'node:timers/promises'
import type { Procedure } from '../../src/core/procedure/procedure.ts'
import { partAges, wearInRun, type PartAge, type WearInRun } from '../../src/core/record/wear.ts'
import type { Records, RunRow } from '../storage/records.ts'

/** Some ten years of two runs a day. */
const LOOKED_THROUGH = 8000

export interface WearBook {
  agesAt(machine: string): Promise<readonly PartAge[]>
}

export function wearBook(records: Records): WearBook {
  /** A run that is over says the same for ever. */
  const known = new Map<string, WearInRun>()

  async function wearOf({ runId, started, lastAt, open }: RunRow): Promise<WearInRun | null> {
    const key = `${runId} ${lastAt}`
    const before = known.get(key)
    if (before) return before
    const canonical = await records.procedure(started.procedureHash)
    if (canonical === null) return null
    const { events } = await records.eventsAfter(runId, 0)
    const wear = wearInRun(JSON.parse(canonical) as Procedure, events)
    if (!open) known.set(key, wear)
    // Years of runs take a while: others are served in between.
    await turn()
    return wear
  }

  return {
    async agesAt(machine) {
      const wears: WearInRun[] = []
      for (const run of await records.runs(LOOKED_THROUGH)) {
        if (run.started.machine !== machine) continue
        const wear = await wearOf(run)
        if (wear) wears.push(wear)
      }
      return partAges(wears)
    }
  }
}
