/** Signing a record: the only way to a `signed` entry. Whoever signs has just given a password. */
import { Hono } from 'hono'
import * as v from 'valibot'
import { MEANINGS, type RunEvent } from '../../src/core/run/event.ts'
import type { Accounts } from '../accounts/accounts.ts'
import { doer } from '../accounts/caller.ts'
import { isOver } from '../exports/is-over.ts'
import type { Live } from '../live.ts'
import { notFound, problem } from '../problem.ts'
import { canonicalJson } from '../procedures/content-hash.ts'
import { bodyOf, smallBody } from './json-body.ts'
import { envelopeAfter } from './server-entry.ts'
import { jsonOnly } from '../security.ts'
import type { ChainEntry, Records } from '../storage/records.ts'

const signing = v.strictObject({
  meaning: v.picklist(MEANINGS),
  /** How many entries the record had that was looked at. */
  entries: v.pipe(v.number(), v.safeInteger())
})

export const SIGNATURE_BODIES = { 'POST /api/runs/:id/signatures': signing }

export interface SignatureRoutes {
  readonly records: Records
  readonly accounts: Accounts
  readonly live: Live
  readonly now: () => number
  readonly newId: () => string
}

export function signatureRoutes({ records, accounts, live, now, newId }: SignatureRoutes): Hono {
  const routes = new Hono()

  routes.post('/runs/:id/signatures', jsonOnly(), smallBody, async (context) => {
    const asked = await bodyOf(context, signing)
    const { session } = context.get('caller')
    if (!asked || !session) {
      return problem(context, 422, 'No signature', 'Give a meaning, and how many entries you looked at.')
    }
    const { meaning, entries } = asked
    const { name, id: person } = session.person
    const runId = context.req.param('id')
    const chain = await records.chainOfRun(runId)
    const events = chain.map(({ canonical }) => JSON.parse(canonical) as RunEvent)
    if (!events.some(({ type }) => type === 'run-started')) return notFound(context)
    if (!(await isOver(records, events))) {
      return problem(context, 409, 'The run is not over', 'Finish it, or end it with a reason, then sign.')
    }
    if (entries !== chain.length) {
      return problem(
        context,
        409,
        'The record has changed',
        `It has ${chain.length} entries now. Look at it again, then sign.`
      )
    }
    const signed: RunEvent = {
      ...envelopeAfter(events, now(), newId()),
      by: name,
      via: 'touch',
      runId,
      type: 'signed',
      meaning,
      entries,
      head: headOf(chain),
      person
    }
    const added = await records.addEvents([{ event: signed, canonical: canonicalJson(signed) }], now())
    if (added.kind === 'no-room') return problem(context, 507, 'The disk is full', 'Nothing was signed. Make room.')
    for (const [moved, position] of added.positions) live.tell({ runId: moved, position })
    await accounts.note({ at: now(), ...doer(context), what: 'record-signed', about: `${runId} (${meaning})` })
    return context.json({ signed: signed.id })
  })
  return routes
}

function headOf(chain: readonly ChainEntry[]): string {
  return chain.at(-1)?.link ?? ''
}
