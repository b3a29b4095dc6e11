/** The server as one function from requests to answers: no listening, no environment. */
import { Hono } from 'hono'
import { choose, NO_RULES, type RulesOffered, type ShopRules } from '../src/core/sanitizer/shop-rules.ts'
import type { ProcedureFault } from '../src/ports/server.ts'
import type { Live } from './live.ts'
import { notFound, onError } from './problem.ts'
import type { Schedule } from '../src/core/due/schedule.ts'
import { wearBook } from './due/wear-book.ts'
import { dueRoutes } from './routes/due.ts'
import { eventRoutes } from './routes/events.ts'
import { liveRoutes } from './routes/live.ts'
import { pageRoutes } from './routes/page.ts'
import { procedureRoutes } from './routes/procedures.ts'
import { trendRoutes } from './routes/trends.ts'
import { timesRoutes } from './routes/times.ts'
import { wearRoutes } from './routes/wear.ts'
import { workshopRoutes, type WorkshopRoutes } from './routes/workshop.ts'
import { ruleRoutes } from './routes/rules.ts'
import { speechRoutes } from './routes/speech.ts'
import type { Speech } from './speech/speech.ts'
import { exportRoutes } from './routes/exports.ts'
import { recordRoutes } from './routes/records.ts'
import { signatureRoutes } from './routes/signatures.ts'
import type { Accounts } from './accounts/accounts.ts'
import { guard } from './accounts/guard.ts'
import { deedRoutes } from './routes/deeds.ts'
import { deviceRoutes } from './routes/devices.ts'
import { linkRoutes } from './routes/links.ts'
import { nameRoutes } from './routes/names.ts'
import { peopleRoutes } from './routes/people.ts'
import { sessionRoutes } from './routes/session.ts'
import { headers, sameOrigin } from './security.ts'
import type { Signer } from './signing/signing-key.ts'
import type { Records } from './storage/records.ts'
import { voiceRoutes } from './routes/voices.ts'
import type { VoiceStore } from './voices/voice-store.ts'

export interface AppParts {
  readonly records: Records
  readonly accounts: Accounts
  readonly faults: readonly ProcedureFault[]
  readonly rules: RulesOffered
  readonly schedule: Schedule
  readonly live: Live
  /** Null where no clips are rendered. */
  readonly speech: Speech | null
  /** Null where no voices are kept. */
  readonly voices: VoiceStore | null
  readonly signer: Signer
  /** UUIDv7 (RFC 9562). */
  readonly newId: () => string
  /** Trusted time, epoch ms. */
  readonly now: () => number
  /** Where the built page lies; null serves the interface only. */
  readonly pageFolder: string | null
  readonly log: (message: string) => void
  /** What procedures that are published here are held to, and take the place of. Without it: the rules offered, and no files. */
  readonly workshop?: Pick<WorkshopRoutes, 'shop' | 'shipped'>
}

export function createApp(parts: AppParts): Hono {
  const { records, accounts, faults, rules, schedule, live, signer, newId, speech, voices, now, pageFolder, log } =
    parts
  const app = new Hono()
  const wear = wearBook(records)
  app.onError(onError(log))
  app.notFound(notFound)
  app.use(headers())
  app.use('/api/*', sameOrigin())
  app.use('/api/*', async (context, next) => {
    await next()
    if (!context.res.headers.has('cache-control')) context.res.headers.set('cache-control', 'no-store')
  })
  app.use('/api/*', guard(accounts, now))
  app.get('/api/health', async (context) => {
    await records.timeAnchor()
    return context.json({ ok: true })
  })
  app.get('/api/time', (context) => context.json({ trusted: now() }))
  app.route('/api', procedureRoutes(records, faults))
  app.route('/api', ruleRoutes(rules))
  app.route('/api', eventRoutes({ records, accounts, live, newId, now, log }))
  app.route('/api', recordRoutes(records))
  app.route('/api', trendRoutes(records))
  app.route('/api', signatureRoutes({ records, accounts, live, now, newId }))
  app.route('/api', exportRoutes({ records, signer, now }))
  app.route('/api', dueRoutes({ records, schedule, wear, now }))
  app.route('/api', timesRoutes(records))
  app.route('/api', wearRoutes(wear))
  const { shop, shipped } = parts.workshop ?? { shop: shopOf(rules), shipped: new Map<string, string>() }
  app.route('/api', workshopRoutes({ records, accounts, shop, shipped, speech, live, now }))
  app.route('/api', liveRoutes(live, now))
  app.route('/api', speechRoutes(speech))
  app.route('/api', voiceRoutes(voices))
  const who = { accounts, newId, now }
  for (const routes of [sessionRoutes, nameRoutes, peopleRoutes, deviceRoutes, linkRoutes, deedRoutes])
    app.route('/api', routes(who))
  app.all('/api/*', notFound)
  if (pageFolder !== null) app.route('/', pageRoutes(pageFolder))
  return app
}

function shopOf({ chosen, shelf }: RulesOffered): ShopRules | null {
  if (chosen === null) return NO_RULES
  const found = choose(chosen, shelf)
  return found.kind === 'chosen' ? found.shop : null
}
