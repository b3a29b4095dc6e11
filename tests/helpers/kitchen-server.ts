/** The real server in this process, on a port of its own, with the procedures a test brings. */
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import { serve } from '@hono/node-server'
import { v7 as uuidv7 } from 'uuid'
import { createApp } from '../../server/app.ts'
import { NO_SCHEDULE, type Schedule } from '../../src/core/due/schedule.ts'
import { passingSigner } from '../../server/signing/signing-key.ts'
import type { Accounts } from '../../server/accounts/accounts.ts'
import { laterOwnerCode } from '../../server/accounts/owner-code.ts'
import { sqliteAccounts } from '../../server/storage/sqlite-accounts.ts'
import { cheapSecrets } from './memory-accounts.ts'
import { createLive } from '../../server/live.ts'
import { canonicalJson, sha256 } from '../../server/procedures/content-hash.ts'
import type { Speech } from '../../server/speech/speech.ts'
import { openDatabase } from '../../server/storage/open-database.ts'
import type { Records } from '../../server/storage/records.ts'
import { sqliteRecords } from '../../server/storage/sqlite-records.ts'
import { readMachine } from '../../server/time/machine-clock.ts'
import { startTrustedClock } from '../../server/time/trusted-clock.ts'
import { voiceStore } from '../../server/voices/voice-store.ts'
import type { RunEvent } from '../../src/core/run/event.ts'
import type { RulesOffered } from '../../src/core/sanitizer/shop-rules.ts'
import { aProcedure } from './a-procedure.ts'

export interface KitchenServer {
  readonly url: string
  readonly records: () => Records
  readonly accounts: () => Accounts
  /** Of the run that was begun last, as far as they are here; none without one. */
  events(): Promise<readonly RunEvent[]>
  /** A fresh code that makes an owner. */
  ownerCode(): Promise<string>
  /** Lets time pass for the server, as its machine's boot clock tells it. */
  pass(ms: number): void
  /** Goes away as in a power cut: no answer to anything, open connections cut. */
  stop(): Promise<void>
  /** Comes back on the same port with the same store. */
  start(): Promise<void>
  /** Stops and deletes the store. */
  end(): Promise<void>
}

interface Running {
  readonly records: Records
  readonly accounts: Accounts
  readonly now: () => number
  readonly close: () => Promise<void>
}

/** As `npm run build` leaves it. */
export const BUILT_PAGE = resolve(import.meta.dirname, '../../dist/page')

/** `pageFolder` is asked at every start: the server may come back with another version of the page. */
export async function kitchenServer(
  yamlTexts: readonly string[],
  pageFolder: () => string = () => BUILT_PAGE,
  rules: RulesOffered = { chosen: null, shelf: [] },
  speechOver: (records: Records, folder: string) => Speech | null = () => null,
  schedule: Schedule = NO_SCHEDULE
): Promise<KitchenServer> {
  const folder = mkdtempSync(join(tmpdir(), 'sidecall-test-'))
  let port = 0
  let passedMs = 0
  const machine = () => {
    const reading = readMachine()
    return { ...reading, uptime: reading.uptime + passedMs / 1000, wall: reading.wall + passedMs }
  }
  let running: Running | null = null

  async function start(): Promise<void> {
    const opened = openDatabase(folder)
    if (opened.kind === 'failed') throw new Error(opened.what)
    const records = sqliteRecords(opened.database)
    const accounts = sqliteAccounts(opened.database, cheapSecrets())
    const clock = await startTrustedClock(records, machine)
    for (const source of yamlTexts) {
      const procedure = aProcedure(source)
      const canonical = canonicalJson(procedure)
      await records.publish({ hash: sha256(canonical), procedure, canonical, source }, clock.now())
    }
    const live = createLive()
    const app = createApp({
      speech: speechOver(records, folder),
      voices: voiceStore(join(folder, 'voices')),
      schedule,
      signer: passingSigner(),
      newId: () => uuidv7(),
      records,
      accounts,
      faults: [],
      rules,
      live,
      now: clock.now,
      pageFolder: pageFolder(),
      log: console.error
    })
    await new Promise<void>((ready) => {
      const server = serve({ fetch: app.fetch, port, hostname: '127.0.0.1' }, (address) => {
        port = address.port
        ready()
      })
      running = {
        records,
        accounts,
        now: clock.now,
        close: async () => {
          live.end()
          await new Promise<void>((closed) => {
            server.close(() => closed())
            if ('closeAllConnections' in server) server.closeAllConnections()
          })
          await records.close()
        }
      }
    })
  }

  await start()
  return {
    url: `http://localhost:${port}`,
    records: () => {
      if (!running) throw new Error('The server is stopped.')
      return running.records
    },
    accounts: () => {
      if (!running) throw new Error('The server is stopped.')
      return running.accounts
    },
    async events() {
      if (!running) throw new Error('The server is stopped.')
      const { records } = running
      const [run] = await records.runs(1)
      return run ? (await records.eventsAfter(run.runId, 0)).events : []
    },
    async ownerCode() {
      if (!running) throw new Error('The server is stopped.')
      return laterOwnerCode(running.accounts, running.now())
    },
    pass(ms) {
      passedMs += ms
    },
    start,
    async stop() {
      await running?.close()
      running = null
    },
    async end() {
      await running?.close()
      running = null
      rmSync(folder, { recursive: true, force: true })
    }
  }
}
