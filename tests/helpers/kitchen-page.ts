/** The whole page without a browser: the real app and core on strict fakes, and the real server behind MSW. */
import { readFileSync } from 'node:fs'
import { http } from 'msw'
import { setupServer } from 'msw/node'
import { v7 as uuidv7 } from 'uuid'
import { createApp } from '../../server/app.ts'
import { NO_SCHEDULE } from '../../src/core/due/schedule.ts'
import { passingSigner } from '../../server/signing/signing-key.ts'
import { createLive } from '../../server/live.ts'
import { canonicalJson, sha256 } from '../../server/procedures/content-hash.ts'
import { memoryRecords } from '../../server/storage/memory-records.ts'
import { fewWords } from '../../src/core/talk/few-words.ts'
import type { Records } from '../../server/storage/records.ts'
import { startApp, type App } from '../../src/app/app.ts'
import type { Conductor } from '../../src/app/conductor.ts'
import type { LivePlan } from '../../src/app/live-plan.ts'
import type { Settings } from '../../src/app/settings.ts'
import type { RunSession } from '../../src/app/run-session.ts'
import { accountsOverHttp } from '../../src/devices/accounts-http.ts'
import { recordsOverHttp } from '../../src/devices/records-http.ts'
import { workshopOverHttp } from '../../src/devices/workshop-http.ts'
import { inlineBench } from './inline-bench.ts'
import { serverOverHttp } from '../../src/devices/server-http.ts'
import { aProcedure } from './a-procedure.ts'
import { fakeAlarm, type FakeAlarm } from './fake-alarm.ts'
import { fakeClips } from './fake-clips.ts'
import { fakeClock, promisesRun, type FakeClock } from './fake-clock.ts'
import { fakeEars, type FakeEars } from './fake-ears.ts'
import { fakeBrowserLocks, type FakeBrowserLocks } from './fake-locks.ts'
import { fakeMouth, type FakeMouth } from './fake-mouth.ts'
import { fakeScreenLock } from './fake-screen-lock.ts'
import { inlinePlanner } from './inline-planner.ts'
import { fakeVoicePractice, type FakeVoicePractice } from './fake-voice-practice.ts'
import { fakeWaker } from './fake-waker.ts'
import { cookieJar, type Ask } from './cookie-jar.ts'
import { memoryAccounts } from './memory-accounts.ts'
import { becomeOwner } from './shop-people.ts'
import { memoryStorage, type MemoryEventLog, type MemoryStorage } from './memory-event-log.ts'

const ORIGIN = 'http://kitchen.test'

export interface Page {
  readonly app: App
  readonly ears: FakeEars
  readonly practice: FakeVoicePractice
  readonly mouth: FakeMouth
  readonly alarm: FakeAlarm
  readonly log: MemoryEventLog
  /** The open run. */
  run(): { readonly session: RunSession; readonly conductor: Conductor; readonly plan: LivePlan }
  close(): void
}

export interface Kitchen {
  readonly clock: FakeClock
  readonly records: Records
  readonly storage: MemoryStorage
  /** Opens the page in another tab, or again after a reload. */
  open(): Promise<Page>
  /** Opens the page on another device: a storage of its own, and the same server. */
  openElsewhere(): Promise<Page>
  /** Opens the page and starts the procedure. */
  start(operator?: string, toldAll?: readonly string[], languages?: Settings['languages']): Promise<Page>
  /** The server does not answer any more, or answers again. */
  serverAway(away: boolean): void
  /** The server's disk has no room for events any more, or has again. */
  serverFull(full: boolean): void
  /** Lets time pass for the page and the server alike. */
  pass(ms: number): Promise<void>
  /** Time that only the server's boot clock and the device's wall clock see: the lid is closed. */
  lidClosed(ms: number): void
  /** From now on this page's browser is that of an owner who has just signed in. */
  ownedHere(): Promise<void>
  /** Somebody becomes the owner in another browser, which is given; the pages here are of an unpaired one. */
  ownedElsewhere(): Promise<Ask>
  /** Asks the server as the pages here do. */
  ask(path: string, init?: RequestInit): Promise<Response>
  end(): void
}

export function shippedProcedure(file: string): string {
  return readFileSync(new URL(`../../procedures/${file}`, import.meta.url), 'utf8')
}

export async function kitchen(yamlText: string): Promise<Kitchen> {
  // Beforehand: with time that a test moves, nobody waits for a file.
  await Promise.all([import('../../src/core/record/wire-procedure.ts'), import('../../src/core/talk/spanish.ts')])
  const clock = fakeClock()
  const origin = clock.wall()
  let away = false
  let sleptMs = 0
  const serverNow = () => origin + clock.steady() + sleptMs
  let isFull = false
  const store = memoryRecords()
  const records: Records = {
    ...store,
    addEvents: async (events, at) => (isFull ? { kind: 'no-room' } : store.addEvents(events, at))
  }
  const procedure = aProcedure(yamlText)
  const canonical = canonicalJson(procedure)
  await records.publish({ hash: sha256(canonical), procedure, canonical, source: yamlText }, serverNow())
  const live = createLive()
  const accounts = memoryAccounts()
  const hono = createApp({
    speech: null,
    voices: null,
    schedule: NO_SCHEDULE,
    signer: passingSigner(),
    newId: () => uuidv7(),
    records,
    accounts,
    faults: [],
    rules: { chosen: null, shelf: [] },
    live,
    now: serverNow,
    pageFolder: null,
    log: console.error
  })
  const withCookies = cookieJar((request, init) => hono.fetch(new Request(request, init)))
  const msw = setupServer(http.all(`${ORIGIN}/*`, ({ request }) => (away ? Response.error() : withCookies(request))))
  msw.listen({ onUnhandledRequest: 'error' })
  const storage = memoryStorage()
  const locks: FakeBrowserLocks = fakeBrowserLocks()
  let ids = 0

  async function openOn(device: MemoryStorage, browser: FakeBrowserLocks): Promise<Page> {
    const tab = browser.tab()
    const ears = fakeEars(clock)
    const practice = fakeVoicePractice()
    const mouth = fakeMouth({ kind: 'takes', ms: 400, clock })
    const alarm = fakeAlarm(clock, 300)
    const log = device.open()
    const app = await startApp({
      clock,
      ears,
      practice: async () => practice,
      fewWords: async () => fewWords,
      mouth,
      alarm,
      clips: fakeClips(),
      waker: fakeWaker(clock),
      planner: inlinePlanner(),
      log,
      locks: tab,
      screenLock: fakeScreenLock(),
      server: serverOverHttp({ base: ORIGIN }),
      records: async () => recordsOverHttp({ base: ORIGIN }),
      accounts: async () => accountsOverHttp({ base: ORIGIN }),
      workshop: async () => ({ link: workshopOverHttp({ base: ORIGIN }), startBench: inlineBench }),
      stream: {
        onMoved: (tell) =>
          live.listen(
            ({ runId }) => (away ? undefined : tell(runId)),
            () => {}
          ),
        onOffered: (tell) =>
          live.listen(
            () => {},
            () => {},
            () => (away ? undefined : tell())
          ),
        close() {}
      },
      newId: () => `id-${String((ids += 1)).padStart(6, '0')}`,
      zone: 'America/Chicago',
      languages: ['en-US']
    })
    const run = () => {
      const view = app.$view.get()
      if (view.kind !== 'run') throw new Error(`The page shows ${view.kind}, not a run.`)
      return { session: view.session, conductor: view.conductor, plan: view.plan }
    }
    return {
      app,
      ears,
      practice,
      mouth,
      alarm,
      log,
      run,
      close() {
        app.close()
        tab.close()
      }
    }
  }

  return {
    clock,
    records,
    storage,
    open: () => openOn(storage, locks),
    openElsewhere: () => openOn(memoryStorage(), fakeBrowserLocks()),
    async start(operator = 'Ada', toldAll: readonly string[] = [], languages: Settings['languages'] = {}) {
      const page = await openOn(storage, locks)
      page.app.$settings.set({ ...page.app.$settings.get(), operator, units: 'us', toldAll, languages })
      const view = page.app.$view.get()
      const hash = view.kind === 'choose' ? view.offers?.procedures[0]?.hash : undefined
      if (hash === undefined) throw new Error('No procedure is offered.')
      await page.app.choose(hash)
      await page.app.begin()
      await clock.pass(1500)
      return page
    },
    serverAway(gone) {
      away = gone
    },
    serverFull(full) {
      isFull = full
    },
    async pass(ms) {
      await clock.pass(ms)
      // Requests go through real streams, which take some turns of the event loop.
      for (let turn = 0; turn < 12; turn += 1) await promisesRun()
    },
    lidClosed(ms) {
      sleptMs += ms
      clock.sleep(ms)
    },
    ownedHere: () => becomeOwner(accounts, withCookies, serverNow(), ORIGIN),
    async ownedElsewhere() {
      const office = cookieJar((path, init) =>
        hono.fetch(new Request(path instanceof Request ? path : new URL(path, ORIGIN), init))
      )
      await becomeOwner(accounts, office, serverNow())
      return office
    },
    ask: (path, init) => withCookies(`${ORIGIN}${path}`, init),
    end() {
      msw.close()
    }
  }
}

/** Says words when the ears are open, and waits for what follows. */
export async function say(kitchenNow: Kitchen, page: Page, words: string): Promise<void> {
  for (let tries = 0; page.ears.state().kind !== 'listening'; tries += 1) {
    if (tries > 200) throw new Error(`The ears stay ${page.ears.state().kind}; "${words}" cannot be said.`)
    await kitchenNow.pass(250)
  }
  page.ears.say(words)
  await kitchenNow.pass(250)
}
