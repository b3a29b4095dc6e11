/** Looking back over the last runs of a machine. */
import { Hono } from 'hono'
import { askedWithin } from '../accounts/within-link.ts'
import { runFigures, type RunFigures } from '../../src/core/record/run-figures.ts'
import { trendsOf } from '../../src/core/record/trends.ts'
import { recordsOf } from '../exports/records-in-scope.ts'
import { readScope, runsInScope } from '../exports/scope.ts'
import { problem } from '../problem.ts'
import type { Records } from '../storage/records.ts'

/** Two months of two runs a day: more makes no plot clearer. */
const MOST_RUNS = 120

export function trendRoutes(records: Records): Hono {
  const routes = new Hono()
  /** A run in which nothing has come since says the same for ever. */
  const known = new Map<string, RunFigures>()

  routes.get('/trends', async (context) => {
    const read = readScope(askedWithin(context))
    if (read.kind === 'faulty') return problem(context, 422, 'No such days', read.why)
    const over = (await runsInScope(records, read.scope)).filter(({ ended }) => ended !== null).slice(-MOST_RUNS)
    const figures: RunFigures[] = []
    for (const run of over) {
      const key = `${run.runId} ${run.entries}`
      let one = known.get(key)
      if (!one) {
        const [record] = await recordsOf(records, [run])
        one = record && runFigures(record)
        if (one) known.set(key, one)
      }
      if (one) figures.push(one)
    }
    return context.json(trendsOf(figures))
  })
  return routes
}
