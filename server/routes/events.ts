/** Events in and out. */
import { Hono } from 'hono'
import { bodyLimit } from 'hono/body-limit'
import { MOST_BYTES_AT_ONCE, MOST_EVENTS_AT_ONCE, readEvent } from '../../src/core/record/wire.ts'
import type { Receipt } from '../../src/ports/server.ts'
import type { Live } from '../live.ts'
import { problem } from '../problem.ts'
import { canonicalJson } from '../procedures/content-hash.ts'
import type { IncomingEvent, Records } from '../storage/records.ts'

export interface EventRoutes {
  readonly records: Records
  readonly live: Live
  readonly now: () => number
}

export function eventRoutes({ records, live, now }: EventRoutes): Hono {
  const routes = new Hono()

  const limit = bodyLimit({
    maxSize: MOST_BYTES_AT_ONCE,
    onError: (context) => problem(context, 413, 'Too large', `Send at most ${MOST_BYTES_AT_ONCE} bytes at a time.`)
  })
  routes.post('/events', limit, async (context) => {
    const text = await context.req.text()
    const body = parsed(text)
    if (body === undefined) return problem(context, 400, 'Not JSON', 'The body cannot be read as JSON.')
    const sent = typeof body === 'object' && body !== null && 'events' in body ? body.events : undefined
    if (!Array.isArray(sent)) return problem(context, 422, 'No events', 'Send an object with a list called events.')
    if (sent.length > MOST_EVENTS_AT_ONCE) {
      return problem(context, 422, 'Too many events', `Send at most ${MOST_EVENTS_AT_ONCE} at a time.`)
    }
    const rejected: { id: string; why: string }[] = []
    const good: IncomingEvent[] = []
    for (const value of sent as unknown[]) {
      const read = readEvent(value)
      if (read.kind === 'event') good.push({ event: read.event, canonical: canonicalJson(read.event) })
      else rejected.push({ id: idOf(value), why: read.why })
    }
    const { stored, conflicting, moved } = await records.addEvents(good, now())
    for (const id of conflicting) rejected.push({ id, why: 'another event with this id is kept already' })
    for (const move of moved) live.tell(move)
    return context.json({ stored, rejected } satisfies Receipt)
  })

  routes.get('/runs/:id/events', async (context) => {
    const after = Number(context.req.query('after') ?? '0')
    if (!Number.isSafeInteger(after) || after < 0) {
      return problem(context, 422, 'No such position', 'Give after as a whole number from 0.')
    }
    return context.json(await records.eventsAfter(context.req.param('id'), after))
  })

  return routes
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    return undefined
  }
}

/** As it came, so that the sender can find it among its own; empty when there is none. */
function idOf(value: unknown): string {
  return typeof value === 'object' && value !== null && 'id' in value && typeof value.id === 'string' ? value.id : ''
}
