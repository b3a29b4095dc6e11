/** How long the hands took for each step of past runs, for whoever plans the next. */
import { setImmediate as turn } from 'node:timers/promises'
import { Hono } from 'hono'
import { layOut } from '../../src/core/procedure/course.ts'
import type { Procedure } from '../../src/core/procedure/procedure.ts'
import { CHANGE_MS } from '../../src/core/plan/problem-of-run.ts'
import { timesInRun } from '../../src/core/plan/times/times-in-run.ts'
import type { TimeSample } from '../../src/core/plan/times/time-sample.ts'
import type { Records, RunRow } from '../storage/records.ts'

/** More than anybody learns from. */
const MOST_RUNS = 60
const LOOKED_THROUGH = 500

export function timesRoutes(records: Records): Hono {
  const routes = new Hono()
  /** A run that is over says the same for ever. */
  const known = new Map<string, readonly TimeSample[]>()

  async function timesOf({ runId, started }: RunRow): Promise<readonly TimeSample[]> {
    const canonical = await records.procedure(started.procedureHash)
    if (canonical === null) return []
    const { events } = await records.eventsAfter(runId, 0)
    return timesInRun(layOut(JSON.parse(canonical) as Procedure), events, CHANGE_MS)
  }

  routes.get('/times/:procedureId', async (context) => {
    const id = context.req.param('procedureId')
    const over = (await records.runs(LOOKED_THROUGH)).filter((run) => !run.open && run.started.procedureId === id)
    const samples: TimeSample[] = []
    for (const run of over.slice(0, MOST_RUNS)) {
      const key = `${run.runId} ${run.lastAt}`
      let times = known.get(key)
      if (!times) {
        times = await timesOf(run)
        known.set(key, times)
        // A year of runs takes a while: others are served in between.
        await turn()
      }
      samples.push(...times)
    }
    return context.json({ samples })
  })
  return routes
}
