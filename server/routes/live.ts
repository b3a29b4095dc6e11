/** The stream of server-sent events that tells a page which runs have moved on. */
import { Hono } from 'hono'
import { streamSSE } from 'hono/streaming'
import type { Live } from '../live.ts'
import type { Moved, Records } from '../storage/records.ts'

/** Often enough that a proxy does not take the stream for dead, and that a page notices a lost server soon. */
const HEARTBEAT_MS = 15_000

export interface LiveRoutes {
  readonly records: Records
  readonly live: Live
  readonly now: () => number
}

export function liveRoutes({ records, live, now }: LiveRoutes): Hono {
  const routes = new Hono()

  routes.get('/live', (context) => {
    // Proxies that gather answers before they pass them on would hold the stream back.
    context.header('x-accel-buffering', 'no')
    if (context.req.method === 'HEAD') return context.body(null, 200, { 'content-type': 'text/event-stream' })
    return streamSSE(context, async (stream) => {
      // Each event's id is its position: a browser that comes back names the last one it had.
      const tell = ({ runId, position }: Moved) =>
        stream.writeSSE({ event: 'moved', data: JSON.stringify({ runId, position }), id: String(position) })
      const beat = () => stream.writeSSE({ event: 'beat', data: JSON.stringify({ trusted: now() }) })

      let stopListening = () => {}
      const over = new Promise<void>((resolve) => {
        stopListening = live.listen({ moved: (moved) => void tell(moved), ended: resolve })
        stream.onAbort(resolve)
      })
      const heartbeat = setInterval(() => void beat(), HEARTBEAT_MS)
      try {
        await beat()
        for (const missed of await missedBy(context.req.header('last-event-id'), records)) await tell(missed)
        await over
      } finally {
        clearInterval(heartbeat)
        stopListening()
      }
    })
  })

  return routes
}

async function missedBy(lastEventId: string | undefined, records: Records): Promise<readonly Moved[]> {
  const position = Number(lastEventId ?? Number.NaN)
  return Number.isSafeInteger(position) && position >= 0 ? records.movedSince(position) : []
}
