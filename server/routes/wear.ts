/** How worn the parts of a machine are, for whoever gathers what the next run needs. */
import { setImmediate as turn } from 'node:timers/promises'
import { Hono } from 'hono'
import type { Procedure } from '../../src/core/procedure/procedure.ts'
import { partAges, wearInRun, type WearInRun } from '../../src/core/record/wear.ts'
import { only, problem } from '../problem.ts'
import type { Records, RunRow } from '../storage/records.ts'

/** Some ten years of two runs a day. */
const LOOKED_THROUGH = 8000

export function wearRoutes(records: Records): Hono {
  const routes = new Hono()
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

  routes.get('/wear', async (context) => {
    const machine = context.req.query('machine')
    if (machine === undefined) return problem(context, 400, 'No machine is named', 'Ask with ?machine= and its name.')
    const wears: WearInRun[] = []
    for (const run of await records.runs(LOOKED_THROUGH)) {
      if (run.started.machine !== machine) continue
      const wear = await wearOf(run)
      if (wear) wears.push(wear)
    }
    return context.json({ parts: partAges(wears) })
  })
  routes.all('/wear', only('GET', 'HEAD'))
  return routes
}
