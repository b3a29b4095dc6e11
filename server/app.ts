/** The server as one function from requests to answers: no listening, no environment. */
import { Hono } from 'hono'
import type { RulesOffered } from '../src/core/sanitizer/shop-rules.ts'
import type { ProcedureFault } from '../src/ports/server.ts'
import type { Live } from './live.ts'
import { notFound, onError, only } from './problem.ts'
import { eventRoutes } from './routes/events.ts'
import { liveRoutes } from './routes/live.ts'
import { pageRoutes } from './routes/page.ts'
import { procedureRoutes } from './routes/procedures.ts'
import { timesRoutes } from './routes/times.ts'
import { wearRoutes } from './routes/wear.ts'
import { ruleRoutes } from './routes/rules.ts'
import { speechRoutes } from './routes/speech.ts'
import { headers, sameOrigin } from './security.ts'
import type { Speech } from './speech/speech.ts'
import type { Records } from './storage/records.ts'

export interface AppParts {
  readonly records: Records
  readonly faults: readonly ProcedureFault[]
  readonly rules: RulesOffered
  readonly live: Live
  /** Null where no clips are rendered. */
  readonly speech: Speech | null
  /** Trusted time, epoch ms. */
  readonly now: () => number
  /** Where the built page lies; null serves the interface only. */
  readonly pageFolder: string | null
  readonly log: (message: string) => void
}

export function createApp({ records, faults, rules, live, speech, now, pageFolder, log }: AppParts): Hono {
  const app = new Hono()
  app.onError(onError(log))
  app.notFound(notFound)
  app.use(headers())
  app.use('/api/*', sameOrigin())
  app.use('/api/*', async (context, next) => {
    await next()
    if (!context.res.headers.has('cache-control')) context.res.headers.set('cache-control', 'no-store')
  })
  app.get('/api/health', async (context) => {
    await records.timeAnchor()
    return context.json({ ok: true })
  })
  app.all('/api/health', only('GET', 'HEAD'))
  app.get('/api/time', (context) => context.json({ trusted: now() }))
  app.all('/api/time', only('GET', 'HEAD'))
  app.route('/api', procedureRoutes(records, faults))
  app.route('/api', ruleRoutes(rules))
  app.route('/api', eventRoutes({ records, live, now }))
  app.route('/api', timesRoutes(records))
  app.route('/api', wearRoutes(records))
  app.route('/api', liveRoutes(live, now))
  app.route('/api', speechRoutes(speech))
  app.all('/api/*', notFound)
  if (pageFolder !== null) app.route('/', pageRoutes(pageFolder))
  return app
}
