/** Looks again at the end of a run whenever something comes of a run that was told to be over. */
import { layOut } from '../../src/core/procedure/course.ts'
import type { Procedure } from '../../src/core/procedure/procedure.ts'
import type { RunEvent } from '../../src/core/run/event.ts'
import { withRealEnd } from '../../src/core/run/listed-end.ts'
import type { ListedRun } from '../../src/core/run/listed-run.ts'
import type { SqliteConnection } from './sqlite-engine.ts'

/** All events of the run must be in the store. Without its procedure version what was told counts. */
export function realEnds(database: SqliteConnection): (runId: string, listed: ListedRun) => ListedRun {
  const eventsOf = database.prepare<[string], string>('SELECT canonical FROM events WHERE run_id = ?').pluck()
  const procedure = database.prepare<[string], string>('SELECT canonical FROM procedures WHERE hash = ?').pluck()
  return (runId, listed) => {
    if (listed.ended === null || listed.started === null) return listed
    const canonical = procedure.get(listed.started.procedureHash)
    if (canonical === undefined) return listed
    const events = eventsOf.all(runId).map((text) => JSON.parse(text) as RunEvent)
    return withRealEnd(listed, layOut(JSON.parse(canonical) as Procedure), events)
  }
}
