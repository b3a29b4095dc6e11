/** Events in and out. */
import { Hono } from 'hono'
import { bodyLimit } from 'hono/body-limit'
import { MOST_BYTES_AT_ONCE } from '../../src/core/record/wire.ts'
import type { Accounts } from '../accounts/accounts.ts'
import { callerIds } from '../accounts/caller.ts'
import { checkedNames } from '../accounts/checked-names.ts'
import type { Receipt } from '../../src/ports/server.ts'
import type { Live } from '../live.ts'
import { maySeeRun } from '../accounts/within-link.ts'
import { notFound, problem } from '../problem.ts'
import { jsonOnly } from '../security.ts'
import type { IncomingEvent, Records } from '../storage/records.ts'
import { readBatch } from './event-batch.ts'

const MOST_LOGGED = 5
const MOST_TOLD = 1000
const UNKNOWN_RUN = 'nobody has told this server that its run began'
const NO_ROOM = 'Nothing was stored by this request. Make room on the server and try again.'

export interface EventRoutes {
  readonly records: Records
  readonly accounts: Accounts
  readonly newId: () => string
  readonly live: Live
  readonly now: () => number
  readonly log: (message: string) => void
}

export function eventRoutes({ records, accounts, live, newId, now, log }: EventRoutes): Hono {
  const routes = new Hono()
  /** Runs of which it was logged that nobody has said here that they began. */
  const told = new Set<string>()
  const limit = bodyLimit({
    maxSize: MOST_BYTES_AT_ONCE,
    onError: (context) => {
      log('Refused a request: more than 1 MB of events at a time.')
      return problem(context, 413, 'Too large', 'Send at most 1 MB at a time.')
    }
  })

  /** In the name of the server; where it cannot be kept, the name is one that was not checked. */
  async function addCheckedNames(
    good: readonly IncomingEvent[],
    stored: readonly string[],
    sender: readonly string[]
  ): Promise<void> {
    const kept = new Set(stored)
    const events = good.flatMap(({ event }) => (kept.has(event.id) ? [event] : []))
    const entries = await checkedNames({ accounts, records, newId }, events, sender, now())
    if (entries.length === 0) return
    const added = await records.addEvents(entries, now())
    if (added.kind === 'added') for (const [runId, position] of added.positions) live.tell({ runId, position })
  }

  routes.post('/events', jsonOnly(), limit, async (context) => {
    // A sender that went away in the middle has sent no JSON.
    const batch = readBatch(await context.req.arrayBuffer().catch(() => new ArrayBuffer(0)))
    if (batch.kind === 'unusable') return problem(context, batch.status, batch.title, batch.detail)
    const { fit, unknown } = await ofKnownRuns(records, batch.good)
    const added = await records.addEvents(fit, now())
    if (added.kind === 'no-room') return problem(context, 507, 'The disk is full', NO_ROOM)
    await addCheckedNames(batch.good, added.stored, callerIds(context))
    const conflicting = added.conflicting.map((id) => ({ id, why: 'another event with this id is kept already' }))
    for (const [runId, position] of added.positions) live.tell({ runId, position })
    const runs = new Set(unknown.map(({ event }) => event.runId))
    for (const runId of [...runs].filter((one) => !told.has(one)).slice(0, MOST_LOGGED)) {
      // Once for each run, and never for more than somebody would read.
      if (told.size < MOST_TOLD) told.add(runId)
      else continue
      log(`Refused events of a run that is unknown here: ${JSON.stringify(runId)}`)
    }
    const unbegun = unknown.map(({ event }) => ({ id: event.id, why: UNKNOWN_RUN, because: 'unknown-run' as const }))
    // Bounded: a device with many refused events must not fill the log.
    for (const { id, why } of [...batch.rejected, ...conflicting].slice(0, MOST_LOGGED)) {
      log(`Refused an event: ${JSON.stringify({ id: id.slice(0, 100), why })}`)
    }
    const rejected = [...batch.rejected, ...conflicting, ...unbegun]
    const kept = new Set(added.stored)
    const stored = batch.good.map(({ event }) => event.id).filter((id) => kept.has(id))
    return context.json({ stored, rejected } satisfies Receipt)
  })

  routes.get('/runs/:id/events', async (context) => {
    const after = context.req.query('after') ?? '0'
    if (!/^\d{1,15}$/.test(after)) {
      return problem(context, 422, 'No such position', 'Give after as a whole number from 0.')
    }
    const runId = context.req.param('id')
    if (!(await maySeeRun(context, records, runId))) return notFound(context)
    return context.json(await records.eventsAfter(runId, Number(after)))
  })

  return routes
}

/** Beginnings are kept first, wherever they stand among the others, so that all of a run stand in its site's chain. */
async function ofKnownRuns(records: Records, events: readonly IncomingEvent[]) {
  const begins = ({ event }: IncomingEvent): boolean => event.type === 'run-started'
  const known = new Set(await records.begun([...new Set(events.map(({ event }) => event.runId))]))
  const beginnings = events.filter(begins)
  for (const { event } of beginnings) known.add(event.runId)
  const others = events.filter((incoming) => !begins(incoming))
  return {
    fit: [...beginnings, ...others.filter(({ event }) => known.has(event.runId))],
    unknown: others.filter(({ event }) => !known.has(event.runId))
  }
}
