/** The server as one function from requests to answers: no listening, no environment. */
import { Hono } from 'hono'
import type { ProcedureFault } from '../src/ports/server.ts'
import type { Live } from './live.ts'
import { notAllowed, notFound, onError, problem } from './problem.ts'
import { eventRoutes } from './routes/events.ts'
import { liveRoutes } from './routes/live.ts'
import { pageRoutes } from './routes/page.ts'
import { procedureRoutes } from './routes/procedures.ts'
import { headers, sameOriginJson } from './security.ts'
import type { Records } from './storage/records.ts'

export interface AppParts {
  readonly records: Records
  readonly faults: readonly ProcedureFault[]
  readonly live: Live
  /** Trusted time, epoch ms. */
  readonly now: () => number
  /** Where the built page lies; null serves the interface only. */
  readonly pageFolder: string | null
  readonly log: (message: string) => void
}

const READ_ONLY = [
  '/api/health',
  '/api/time',
  '/api/procedures',
  '/api/procedures/:hash',
  '/api/runs',
  '/api/runs/:id/events',
  '/api/live'
]

export function createApp({ records, faults, live, now, pageFolder, log }: AppParts): Hono {
  const app = new Hono()
  app.onError(onError(log))
  app.notFound(notFound)
  app.use(headers())
  app.use('/api/*', sameOriginJson())
  app.use('/api/*', async (context, next) => {
    await next()
    if (!context.res.headers.has('cache-control')) context.res.headers.set('cache-control', 'no-store')
  })

  app.get('/api/health', async (context) => {
    const anchor = await records.timeAnchor().catch((error: Error) => {
      log(`The store does not answer: ${error.message}`)
      return 'away' as const
    })
    if (anchor === 'away') return problem(context, 503, 'The store does not answer', 'Look at the log of the server.')
    return context.json({ ok: true })
  })
  app.get('/api/time', async (context) => {
    const anchor = await records.timeAnchor()
    return context.json({ trusted: now(), line: anchor?.line ?? 0 })
  })
  app.route('/api', procedureRoutes(records, faults))
  app.route('/api', eventRoutes({ records, live, now }))
  app.route('/api', liveRoutes({ records, live, now }))
  for (const path of READ_ONLY) app.all(path, notAllowed('GET, HEAD'))
  app.all('/api/events', notAllowed('POST'))
  app.all('/api/*', notFound)
  if (pageFolder !== null) app.route('/', pageRoutes(pageFolder))
  return app
}
