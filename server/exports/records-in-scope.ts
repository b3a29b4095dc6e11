/** The records of runs, computed anew from their events. */
import { setImmediate as turn } from 'node:timers/promises'
import { layOut } from '../../src/core/procedure/course.ts'
import type { Procedure } from '../../src/core/procedure/procedure.ts'
import { makeRecord } from '../../src/core/record/make-record.ts'
import type { RunRecord } from '../../src/core/record/run-record.ts'
import type { Records, RunRow } from '../storage/records.ts'

/** Null where the procedure version is not here. */
async function recordOf(records: Records, { runId, started }: RunRow): Promise<RunRecord | null> {
  const canonical = await records.procedure(started.procedureHash)
  if (canonical === null) return null
  const { events } = await records.eventsAfter(runId, 0)
  return makeRecord(layOut(JSON.parse(canonical) as Procedure), events)
}

export async function recordsOf(records: Records, runs: readonly RunRow[]): Promise<readonly RunRecord[]> {
  const made: RunRecord[] = []
  for (const run of runs) {
    const record = await recordOf(records, run)
    if (record) made.push(record)
    // A year of them takes a while: others are served in between.
    await turn()
  }
  return made
}
