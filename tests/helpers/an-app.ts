/** The real server's app over records in memory, asked as the page asks. */
import type { Hono } from 'hono'
import { v7 as uuidv7 } from 'uuid'
import { createApp, type AppParts } from '../../server/app.ts'
import { NO_SCHEDULE } from '../../src/core/due/schedule.ts'
import { passingSigner } from '../../server/signing/signing-key.ts'
import { createLive, type Live } from '../../server/live.ts'
import { memoryRecords } from '../../server/storage/memory-records.ts'
import type { Accounts } from '../../server/accounts/accounts.ts'
import type { Records } from '../../server/storage/records.ts'
import { cookieJar, type Ask } from './cookie-jar.ts'
import { memoryAccounts } from './memory-accounts.ts'
import { becomeOwner } from './shop-people.ts'

export interface AnApp {
  readonly app: Hono
  readonly records: Records
  readonly accounts: Accounts
  readonly live: Live
  /** What the server wrote in its log. */
  readonly logged: readonly string[]
  /** Sends events; `body` is sent as it is when it is text or bytes. */
  send(body: unknown, headers?: Readonly<Record<string, string>>): Promise<Response>
  /** Another browser, with cookies of its own. */
  browser(): Ask
  /** A browser in which somebody has just become the owner of the shop. */
  owner(): Promise<Ask>
}

export const NOW = 1_790_000_000_000

export function anApp(parts: Partial<AppParts> = {}): AnApp {
  const records = parts.records ?? memoryRecords()
  const accounts = parts.accounts ?? memoryAccounts()
  const live = parts.live ?? createLive()
  const logged: string[] = []
  const log = (message: string) => void logged.push(message)
  const app = createApp({
    speech: null,
    voices: null,
    schedule: NO_SCHEDULE,
    signer: passingSigner(),
    newId: () => uuidv7(),
    records,
    accounts,
    live,
    faults: [],
    rules: { chosen: null, shelf: [] },
    now: () => NOW,
    pageFolder: null,
    log,
    ...parts
  })
  const browser = () => cookieJar((path, init) => app.request(path, init))
  return {
    app,
    records,
    accounts,
    live,
    logged,
    browser,
    async owner() {
      const ask = browser()
      await becomeOwner(accounts, ask, (parts.now ?? (() => NOW))())
      return ask
    },
    send: async (body, headers = {}) =>
      app.request('/api/events', {
        method: 'POST',
        headers: { 'content-type': 'application/json', ...headers },
        body: typeof body === 'string' || body instanceof Uint8Array ? (body as BodyInit) : JSON.stringify(body)
      })
  }
}
