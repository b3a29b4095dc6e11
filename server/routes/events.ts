/** Events in and out. */
import { Hono } from 'hono'
import { bodyLimit } from 'hono/body-limit'
import { streamSSE } from 'hono/streaming'
import { readEvent } from '../../src/core/record/wire.ts'
import type { Receipt } from '../../src/ports/server.ts'
import type { Live } from '../live.ts'
import { problem } from '../problem.ts'
import { canonicalJson } from '../procedures/content-hash.ts'
import type { IncomingEvent, Records } from '../storage/records.ts'

const MOST_EVENTS = 500
const MOST_BYTES = 1024 * 1024
const HEARTBEAT_MS = 20_000

export interface EventRoutes {
  readonly records: Records
  readonly live: Live
  readonly now: () => number
}

export function eventRoutes({ records, live, now }: EventRoutes): Hono {
  const routes = new Hono()

  routes.post('/events', bodyLimit({ maxSize: MOST_BYTES, onError: (context) => problem(context, 413, 'Too large', 'Send at most 1 MB at a time.') }), async (context) => {
    const body: unknown = await context.req.json().catch(() => undefined)
    const sent = typeof body === 'object' && body !== null && 'events' in body ? body.events : undefined
    if (!Array.isArray(sent)) return problem(context, 422, 'No events', 'Send an object with a list called events.')
    if (sent.length > MOST_EVENTS) return problem(context, 422, 'Too many events', `Send at most ${MOST_EVENTS} at a time.`)
    const rejected: { id: string; why: string }[] = []
    const good: IncomingEvent[] = []
    for (const value of sent as unknown[]) {
      const read = readEvent(value)
      if (read.kind === 'event') good.push({ event: read.event, canonical: canonicalJson(read.event) })
      else rejected.push({ id: idOf(value), why: read.why })
    }
    const added = await records.addEvents(good, now())
    for (const id of added.conflicting) rejected.push({ id, why: 'another event with this id is kept already' })
    for (const [runId, position] of added.positions) live.tell({ runId, position })
    return context.json({ stored: added.stored, rejected } satisfies Receipt)
  })

  routes.get('/runs/:id/events', async (context) => {
    const after = Number(context.req.query('after') ?? '0')
    if (!Number.isSafeInteger(after) || after < 0) return problem(context, 422, 'No such position', 'Give after as a whole number from 0.')
    return context.json(await records.eventsAfter(context.req.param('id'), after))
  })

  routes.get('/live', (context) =>
    streamSSE(context, async (stream) => {
      const ended = new Promise<void>((resolve) => {
        const stopEnding = live.onEnd(resolve)
        stream.onAbort(() => {
          stopEnding()
          resolve()
        })
      })
      const stopListening = live.listen((moved) => void stream.writeSSE({ event: 'moved', data: JSON.stringify(moved) }))
      const heartbeat = setInterval(() => void stream.writeSSE({ event: 'beat', data: String(now()) }), HEARTBEAT_MS)
      await stream.writeSSE({ event: 'beat', data: String(now()) })
      await ended
      clearInterval(heartbeat)
      stopListening()
    })
  )

  return routes
}

function idOf(value: unknown): string {
  return typeof value === 'object' && value !== null && 'id' in value && typeof value.id === 'string' ? value.id.slice(0, 100) : ''
}
