/** Which procedures there are, and each version for ever by its hash. */
import { Hono } from 'hono'
import { etag } from 'hono/etag'
import { layOut } from '../../src/core/procedure/course.ts'
import { DEFAULTS, planFor } from '../../src/core/plan/plan.ts'
import { wholeProblem } from '../../src/core/plan/problem-of-run.ts'
import type { ProcedureFault, ProcedureListing, RunListing } from '../../src/ports/server.ts'
import { notFound } from '../problem.ts'
import type { Records, StoredProcedure } from '../storage/records.ts'

const MOST_RUNS = 200

export function procedureRoutes(records: Records, faults: readonly ProcedureFault[]): Hono {
  const routes = new Hono()
  const listings = new Map<string, ProcedureListing>()

  routes.get('/procedures', async (context) => {
    const stored = await records.currentProcedures()
    const procedures = stored.map((version) => {
      const listing = listings.get(version.hash) ?? listingOf(version)
      listings.set(version.hash, listing)
      return listing
    })
    return context.json({ procedures, faults })
  })

  routes.get('/procedures/:hash', etag(), async (context) => {
    const hash = context.req.param('hash')
    const canonical = await records.procedure(hash)
    if (canonical === null) return notFound(context)
    return context.body(canonical, 200, {
      etag: `"${hash}"`,
      'cache-control': 'public, max-age=31536000, immutable',
      'content-type': 'application/json'
    })
  })

  routes.get('/runs', async (context) => {
    const runs = (await records.runs(MOST_RUNS)).map(({ runId, started, operator, lastAt, open }): RunListing => ({
      runId,
      procedureHash: started.procedureHash,
      procedureId: started.procedureId,
      machine: started.machine,
      startedAt: started.at,
      lastAt,
      operator,
      open
    }))
    return context.json({ runs })
  })

  return routes
}

function listingOf({ hash, procedure }: StoredProcedure): ProcedureListing {
  const { id, title, summary, example, machine, sides } = procedure
  const planned = planFor(wholeProblem(layOut(procedure)), DEFAULTS)
  const aboutSeconds = planned.kind === 'plan' ? Math.ceil(planned.plan.finish / 1000) : null
  return { id, hash, title, summary, ...(example ? { example } : {}), machine, sides, aboutSeconds }
}
