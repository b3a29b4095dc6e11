/** Damaged rows in a real browser's storage, and storage that an earlier version of the page has left. */
import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest'
import type { RunEvent } from '../../../src/core/run/event.ts'
import { withHead } from '../../helpers/a-procedure.ts'
import { kitchenServer, type KitchenServer } from '../../helpers/kitchen-server.ts'
import { installScriptedVoice } from '../scripted-voice.ts'
import { launchChromium } from '../launch.ts'

const A_WAIT = withHead(`  - stage: Soak
    steps:
      - {step: soak, on: [left], say: Fill the tray., hands: 5 s, wait: {for: soak, at least: 10 min, source: Common practice}}
      - {step: empty, on: [left], say: Empty the tray., hands: 5 s}`)

let browser: Browser
let server: KitchenServer
let context: BrowserContext
let page: Page
let complaints: string[]

beforeAll(async () => {
  browser = await launchChromium('--disable-background-networking', '--disable-sync')
})
afterAll(() => browser.close())

beforeEach(async () => {
  server = await kitchenServer([A_WAIT])
  complaints = []
  context = await browser.newContext({ viewport: { width: 1280, height: 800 } })
  await context.addInitScript('globalThis.__name = (named) => named')
  await context.addInitScript(installScriptedVoice)
  page = await context.newPage()
  page.on('pageerror', (error) => complaints.push(String(error)))
  await page.goto(server.url)
  await page.locator('.starts-alone').waitFor()
})
afterEach(async () => {
  await context.close()
  await server.end()
  if (complaints.length > 0) throw new Error(complaints.join('\n'))
})

const call = (kind: string) => page.locator(`.call-area[data-call="${kind}"]`)

/** Every row of a store, as it is. */
function rows(store: string): Promise<unknown[]> {
  return page.evaluate(
    (name) =>
      new Promise<unknown[]>((resolve, reject) => {
        const opening = indexedDB.open('sidecall')
        opening.addEventListener('error', () => reject(opening.error))
        opening.addEventListener('success', () => {
          const all = opening.result.transaction(name).objectStore(name).getAll()
          all.addEventListener('error', () => reject(all.error))
          all.addEventListener('success', () => {
            opening.result.close()
            resolve(all.result)
          })
        })
      }),
    store
  )
}

const events = async () => (await rows('events')) as RunEvent[]

/** Overwrites the row of the event with one that cannot be read. */
function damage(row: { readonly id: string }): Promise<void> {
  return page.evaluate(
    (broken) =>
      new Promise<void>((resolve, reject) => {
        const opening = indexedDB.open('sidecall')
        opening.addEventListener('success', () => {
          const writing = opening.result.transaction('events', 'readwrite')
          writing.objectStore('events').put(broken)
          writing.addEventListener('error', () => reject(writing.error))
          writing.addEventListener('complete', () => {
            opening.result.close()
            resolve()
          })
        })
      }),
    row
  )
}

/** Begins the run and fills the tray, so that its wait is on; then the server is gone. */
async function waitAlone(): Promise<void> {
  await page.locator('.card').click()
  await page.getByLabel('Who is doing it?').fill('Ada')
  await page.getByRole('button', { name: 'Start', exact: true }).click()
  await call('step').waitFor()
  await expect
    .poll(
      async () => {
        await page.keyboard.press('Space')
        return call('all-waiting').count()
      },
      { timeout: 30_000, interval: 700 }
    )
    .toBe(1)
  await expect.poll(async () => (await rows('outbox')).length, { timeout: 30_000 }).toBe(0)
  await server.stop()
}

async function holdFor(ms: number): Promise<void> {
  await page.locator('.hold').hover()
  await page.mouse.down()
  await page.waitForTimeout(ms)
  await page.mouse.up()
}

async function reloadUntilDamageIsShown(): Promise<void> {
  await page.reload()
  await page.getByText('Part of this run is damaged').waitFor()
}

test('without a copy, nothing but a hold goes on: the lane stops, the wait begins anew, and the row is kept aside', async () => {
  await waitAlone()
  const before = await events()
  const done = before.find(({ type }) => type === 'step-done')
  const called = before.find(({ type }) => type === 'lane-called') ?? before[1]
  if (!done || !called) throw new Error('The step was not carried out.')
  const broken = { id: called.id, runId: called.runId, at: 'whenever' }
  await damage(broken)
  await reloadUntilDamageIsShown()
  await page.getByText('The server may still have what is missing').waitFor()
  await page.keyboard.press('Space')
  await holdFor(200)
  expect(await rows('damaged')).toEqual([])
  await page.getByText('Part of this run is damaged').waitFor()

  await holdFor(1200)
  await page.getByRole('button', { name: /go on/i }).click()
  await call('stopped').waitFor()
  expect(await page.locator('.call-area').textContent()).toContain('Fill the tray')
  expect(await rows('damaged')).toMatchObject([{ id: called.id, row: broken }])
  const after = await events()
  expect(after.some(({ id }) => id === called.id)).toBe(false)
  const loss = after.find(({ type }) => type === 'entries-lost')
  expect(loss).toMatchObject({ ids: [called.id], by: 'Ada' })

  // A call this young takes no touch.
  await page.waitForTimeout(700)
  await page.getByRole('button', { name: /Looked at it/ }).click()
  await call('all-waiting').waitFor()
  const [, minutes] = /(\d+):\d\d/.exec((await page.locator('.call-area').textContent()) ?? '') ?? []
  expect(Number(minutes)).toBeGreaterThanOrEqual(9)
  await page.keyboard.press('Space')
  await expect
    .poll(async () => JSON.stringify(await events()), { timeout: 30_000 })
    .toContain('"reason":"wait-not-over"')
})

test('with a copy on the server it is mended after a reload, and nobody is asked', async () => {
  await waitAlone()
  const before = await events()
  await server.start()
  // Not behind the back of an open page, which would mend it from what it still knows.
  await page.goto(`${server.url}/icon.svg`)
  for (const { id } of before.slice(0, 2)) await damage({ id })
  await page.goto(server.url)
  await page.getByRole('button', { name: /go on/i }).click()
  await call('all-waiting').waitFor()
  const after = await events()
  expect(after.filter(({ id }) => before.some((known) => known.id === id))).toEqual(before)
  expect(after.some(({ type }) => type === 'entries-lost')).toBe(false)
  expect(((await rows('damaged')) as { id: string }[]).map(({ id }) => id).sort()).toEqual(
    before
      .slice(0, 2)
      .map(({ id }) => id)
      .sort()
  )
})

test('storage of the first version is brought up to date with all that is in it, in the middle of a run', async () => {
  await waitAlone()
  const stores = ['events', 'runs', 'outbox', 'rejected', 'procedures'] as const
  const contents = await Promise.all(stores.map(rows))
  const before = contents[0] as RunEvent[]
  const device = before[0]?.device ?? ''
  // Nothing of the page may hold the storage open while it is made anew.
  await server.start()
  await page.goto(`${server.url}/icon.svg`)
  await page.evaluate(
    ([names, all, id]) =>
      new Promise<void>((resolve, reject) => {
        const deleting = indexedDB.deleteDatabase('sidecall')
        deleting.addEventListener('error', () => reject(deleting.error))
        deleting.addEventListener('success', () => {
          const opening = indexedDB.open('sidecall', 1)
          opening.addEventListener('error', () => reject(opening.error))
          opening.addEventListener('upgradeneeded', () => {
            const made = opening.result
            made.createObjectStore('events', { keyPath: 'id' }).createIndex('run', 'runId')
            made.createObjectStore('runs', { keyPath: 'runId' }).createIndex('startedAt', 'startedAt')
            made.createObjectStore('outbox', { autoIncrement: true }).createIndex('id', 'id', { unique: true })
            made.createObjectStore('rejected', { keyPath: 'id' })
            made.createObjectStore('procedures', { keyPath: 'hash' })
            made.createObjectStore('marks')
            made.createObjectStore('settings').put(id, 'device')
            names.forEach((name, place) => {
              for (const row of all[place] ?? []) opening.transaction?.objectStore(name).put(row)
            })
          })
          opening.addEventListener('success', () => {
            opening.result.close()
            resolve()
          })
        })
      }),
    [stores, contents, device] as const
  )
  await server.stop()
  await page.goto(server.url)
  await page.getByRole('button', { name: /go on/i }).click()
  await call('all-waiting').waitFor()
  expect(await events()).toEqual(before)
  expect(await rows('damaged')).toEqual([])
})
