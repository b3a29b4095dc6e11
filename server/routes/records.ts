/** The list of records: what has been done, and what nobody has signed for yet. */
import { Hono } from 'hono'
import { askedWithin } from '../accounts/within-link.ts'
import type { Procedure, Text } from '../../src/core/procedure/procedure.ts'
import { reviewOf } from '../../src/core/record/review.ts'
import type { RecordListing } from '../../src/ports/records.ts'
import { readScope, runsInScope } from '../exports/scope.ts'
import { problem } from '../problem.ts'
import type { Records, RunRow } from '../storage/records.ts'

/** A year of two runs a day. */
const MOST_LISTED = 730

export function recordRoutes(records: Records): Hono {
  const routes = new Hono()
  const titles = new Map<string, Text>()

  async function titleOf(hash: string): Promise<Text | null> {
    const known = titles.get(hash)
    if (known) return known
    const canonical = await records.procedure(hash)
    if (canonical === null) return null
    const { title } = JSON.parse(canonical) as Procedure
    titles.set(hash, title)
    return title
  }

  routes.get('/records', async (context) => {
    const read = readScope(askedWithin(context))
    if (read.kind === 'faulty') return problem(context, 422, 'No such days', read.why)
    const runs = (await runsInScope(records, read.scope)).toReversed()
    const listed: RecordListing[] = []
    for (const run of runs.slice(0, MOST_LISTED)) listed.push(listingOf(run, await titleOf(run.started.procedureHash)))
    return context.json({ records: listed, more: runs.length - listed.length })
  })
  return routes
}

function listingOf({ runId, started, operator, ended, entries, signed }: RunRow, title: Text | null): RecordListing {
  const { procedureId, procedureHash, site, machine, zone, at } = started
  return {
    ...{ runId, procedureId, procedureHash, title, site, machine, zone, operator, entries },
    startedAt: at,
    endedAt: ended?.at ?? null,
    status: ended === null ? 'open' : ended.type === 'run-finished' ? 'complete' : 'ended-early',
    review: reviewOf(signed, entries)
  }
}
