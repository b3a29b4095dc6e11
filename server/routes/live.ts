/** A stream of server-sent events: which run has moved, whether other procedures are offered, and a beat that shows the server lives. */
import { Hono } from 'hono'
import { streamSSE } from 'hono/streaming'
import type { Live } from '../live.ts'

const BEAT_MS = 20_000

export function liveRoutes(live: Live, now: () => number): Hono {
  const routes = new Hono()

  routes.get('/live', (context) => {
    // Proxies that gather answers before they pass them on would hold the stream back.
    context.header('x-accel-buffering', 'no')
    // Nobody would ever end a stream that has no reader.
    if (context.req.method === 'HEAD') return context.body(null, 200, { 'content-type': 'text/event-stream' })
    return streamSSE(context, async (stream) => {
      const beat = () => stream.writeSSE({ event: 'beat', data: String(now()) })
      let stopListening = () => {}
      let end = () => {}
      const ended = new Promise<void>((resolve) => {
        end = resolve
        const tell = (moved: unknown) => void stream.writeSSE({ event: 'moved', data: JSON.stringify(moved) })
        const offer = () => void stream.writeSSE({ event: 'offered', data: '' })
        stopListening = live.listen(tell, resolve, offer)
        stream.onAbort(resolve)
      })
      const mayStill = context.get('mayStill')
      const beating = setInterval(() => void mayStill().then((may) => (may ? beat() : end()), end), BEAT_MS)
      void beat()
      await ended
      clearInterval(beating)
      stopListening()
    })
  })

  return routes
}
