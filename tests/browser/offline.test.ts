/** The page without its server, and a newer page beside a run: only a real browser has service workers. */
import { readdirSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest'
import type { RunEvent } from '../../src/core/run/event.ts'
import { withHead } from '../helpers/a-procedure.ts'
import { BUILT_PAGE, kitchenServer, type KitchenServer } from '../helpers/kitchen-server.ts'
import { newerPage } from '../helpers/newer-page.ts'
import { installScriptedVoice } from './scripted-voice.ts'
import { launchChromium } from './launch.ts'

const TWO_STEPS = withHead(`  - stage: Wipe
    steps:
      - {step: front, on: [left], say: Wipe the front., hands: 5 s}
      - {step: back, on: [left], say: Wipe the back., hands: 5 s}`)
const A_WAIT = withHead(`  - stage: Soak
    steps:
      - {step: soak, on: [left], say: Fill the tray., hands: 5 s, wait: {for: soak, at least: 10 min, source: Common practice}}
      - {step: empty, on: [left], say: Empty the tray., hands: 5 s}`)

/** Seen from a tablet, the server is another machine: plain http there is no safe connection. */
const ANOTHER_MACHINE = 'kitchen.test'

let browser: Browser
let server: KitchenServer
let context: BrowserContext
let pageFolder: string
let complaints: string[]

beforeAll(async () => {
  browser = await launchChromium(
    `--host-resolver-rules=MAP ${ANOTHER_MACHINE} 127.0.0.1`,
    '--disable-background-networking',
    '--disable-sync'
  )
})
afterAll(() => browser.close())

beforeEach(async () => {
  pageFolder = BUILT_PAGE
  complaints = []
  context = await browser.newContext({ viewport: { width: 1280, height: 800 } })
  await context.addInitScript('globalThis.__name = (named) => named')
  await context.addInitScript(installScriptedVoice)
})
afterEach(async () => {
  await context.close()
  await server.end()
  if (pageFolder !== BUILT_PAGE) rmSync(pageFolder, { recursive: true })
  if (complaints.length > 0) throw new Error(complaints.join('\n'))
})

async function serve(yamlText: string): Promise<void> {
  server = await kitchenServer([yamlText], () => pageFolder)
}

async function newTab(): Promise<Page> {
  const page = await context.newPage()
  page.on('pageerror', (error) => complaints.push(String(error)))
  await page.goto(server.url)
  return page
}

/** A tab on a device that has all it needs to start alone. */
async function firstTab(): Promise<Page> {
  const page = await newTab()
  await page.locator('.starts-alone').waitFor()
  return page
}

async function begin(page: Page): Promise<void> {
  await page.locator('.card').click()
  await page.getByLabel('Who is doing it?').fill('Ada')
  await page.getByRole('button', { name: 'Start', exact: true }).click()
  await page.locator('.call-area').waitFor()
}

/** Presses the button if it is there just now: between a look and a touch of Playwright's the page may be another. */
async function pressNow(page: Page, text: string): Promise<void> {
  await page.evaluate((words) => {
    const button = [...document.querySelectorAll('button')].find(({ textContent }) => textContent === words)
    button?.click()
  }, text)
}

/** A touch in the first moment of a new call is taken for a stray one, so it comes again until it counts. */
async function done(page: Page): Promise<void> {
  const before = await headline(page)
  await expect
    .poll(
      async () => {
        await pressNow(page, 'Done')
        return headline(page)
      },
      { timeout: 45_000 }
    )
    .not.toBe(before)
}

const call = (page: Page, kind: string) => page.locator(`.call-area[data-call="${kind}"]`)
/** Null once nothing is called for any more. */
const headline = (page: Page) => page.evaluate(() => document.querySelector('.headline')?.textContent ?? null)

async function typesOnServer(): Promise<readonly string[]> {
  return (await server.events()).map(({ type }) => type)
}

/** The newer version is on the server from now on. */
async function putNewer(): Promise<void> {
  await server.stop()
  pageFolder = newerPage(BUILT_PAGE, 'Sidecall, newer')
  await server.start()
}

/** Asks the browser to look for a newer version now, and waits until it is stored beside the one in service. */
async function newerIsStored(page: Page): Promise<void> {
  await page.evaluate(async () => {
    const registration = await navigator.serviceWorker.ready
    await registration.update()
  })
  await expect
    .poll(() => page.evaluate(async () => (await navigator.serviceWorker.ready).waiting?.state), { timeout: 45_000 })
    .toBe('installed')
}

const NOTED_EVERY_S = 5

describe('without the server', () => {
  test('a reload in a wait: the page is there, the run goes on, and the wait is as long as it was', async () => {
    await serve(A_WAIT)
    const page = await firstTab()
    await begin(page)
    const filledAt = Date.now()
    await done(page)
    await call(page, 'all-waiting').waitFor()
    const kept = () =>
      page.evaluate(
        () =>
          new Promise<RunEvent[]>((resolve, reject) => {
            const opening = indexedDB.open('sidecall')
            opening.addEventListener('error', () => reject(opening.error))
            opening.addEventListener('success', () => {
              const all = opening.result.transaction('events').objectStore('events').getAll()
              all.addEventListener('success', () => {
                opening.result.close()
                resolve(all.result as RunEvent[])
              })
            })
          })
      )
    const before = await kept()
    await server.stop()
    await page.reload()
    await page.getByRole('button', { name: /go on/i }).click()
    await call(page, 'all-waiting').waitFor()
    const after = await kept()
    const ids = new Set(before.map(({ id }) => id))
    expect(after.filter(({ id }) => ids.has(id))).toEqual(before)
    // The server may just have answered the question about the time that follows each step; that only adds to the wait.
    const since = after.filter(({ id }) => !ids.has(id))
    expect(since.filter((event) => event.type !== 'clock-caught-up' || event.byMs <= 0)).toEqual([])
    const addedMs = after.reduce((sum, event) => (event.type === 'clock-caught-up' ? sum + event.byMs : sum), 0)
    const [, minutes, seconds] = /(\d+):(\d\d)/.exec((await page.locator('.call-area').textContent()) ?? '') ?? []
    const left = Number(minutes) * 60 + Number(seconds)
    // By the clock of this test, so that a busy machine makes no difference; a second is for rounding. The page goes on
    // from where it last noted the time, which can be some seconds before the step: the wait gets longer by that.
    expect(left).toBeGreaterThanOrEqual(600 - (Date.now() - filledAt) / 1000 - 1)
    expect(left).toBeLessThanOrEqual(600 + addedMs / 1000 + NOTED_EVERY_S + 1)
    await page.keyboard.press('Space')
    await expect
      .poll(async () => JSON.stringify(await kept()), { timeout: 60_000 })
      .toContain('"reason":"wait-not-over"')
  })

  test('a cold start in a new tab: a new run is begun, done and finished, and sent when the server is back', async () => {
    await serve(TWO_STEPS)
    const first = await firstTab()
    await procedureIsKept(first)
    await first.close()
    await server.stop()

    const page = await newTab()
    await page.getByText('The server cannot be reached.').waitFor()
    await begin(page)
    expect(await headline(page)).toContain('Wipe the front')
    await done(page)
    expect(await headline(page)).toContain('Wipe the back')
    await done(page)
    await page.locator('.finished').waitFor()
    expect(await page.locator('.reached').textContent()).toContain('The server is away.')

    await server.start()
    await expect.poll(typesOnServer, { timeout: 60_000 }).toContain('run-finished')
    expect((await typesOnServer()).filter((type) => type === 'step-done')).toHaveLength(2)
  })

  test('a tablet on plain http is told that it needs the server, why, and what to do; it works all the same', async () => {
    await serve(TWO_STEPS)
    const page = await context.newPage()
    page.on('pageerror', (error) => complaints.push(String(error)))
    await page.goto(server.url.replace('localhost', ANOTHER_MACHINE))
    const note = page.getByText('This device cannot start without the server: this address is not a safe connection.')
    await note.waitFor()
    expect(await note.textContent()).toContain('https')
    await begin(page)
    // Nor are there locks on such a connection.
    await page.locator('.guard.dead', { hasText: 'Other tabs' }).waitFor()
    await done(page)
  })

  test('what is not of the page is never answered from what is kept', async () => {
    await serve(TWO_STEPS)
    const page = await firstTab()
    await server.stop()
    const reached = (path: string, init: RequestInit = {}) =>
      page.evaluate(
        async ([to, options]) => {
          try {
            return (await fetch(to, options)).status
          } catch {
            return 'no answer'
          }
        },
        [path, init] as const
      )
    expect(await reached('/')).toBe(200)
    expect(await reached('/?from=home')).toBe(200)
    expect(await reached('/', { method: 'POST', body: 'x' })).toBe('no answer')
    expect(await reached('/', { headers: { range: 'bytes=0-5' } })).toBe('no answer')
    expect(await reached('/api/time')).toBe('no answer')
    expect(await reached('/api/procedures')).toBe('no answer')
    expect(await reached('/run-screen.png')).toBe('no answer')
  })
})

describe('a newer version of the page', () => {
  test('waits through a run and its reloads, is offered after it, and comes with one touch', async () => {
    await serve(TWO_STEPS)
    const page = await firstTab()
    await begin(page)
    await putNewer()
    await newerIsStored(page)

    await page.reload()
    await page.getByRole('button', { name: /go on/i }).click()
    expect(await page.title()).toBe('Sidecall')
    const other = await newTab()
    expect(await other.title()).toBe('Sidecall')
    await other.close()

    await done(page)
    expect(await headline(page)).toContain('Wipe the back')
    await done(page)
    await page.getByRole('button', { name: 'Back to the list' }).click()
    await page.getByText('A newer version of this page is ready.').waitFor()
    expect(await page.title()).toBe('Sidecall')
    await page.getByRole('button', { name: 'Take it now' }).click()
    await expect.poll(() => page.title(), { timeout: 45_000 }).toBe('Sidecall, newer')
    await page.locator('.starts-alone').waitFor()
    const kept = () => page.evaluate(async () => (await caches.keys()).filter((name) => name.startsWith('page ')))
    await expect.poll(kept).toHaveLength(1)
    // It is the newer one that starts alone now.
    await server.stop()
    await page.reload()
    await page.locator('.card').waitFor()
    expect(await page.title()).toBe('Sidecall, newer')
  })

  test('is held back while another tab has a run open', async () => {
    await serve(TWO_STEPS)
    const chooser = await firstTab()
    const worker = await newTab()
    await begin(worker)
    await putNewer()
    await newerIsStored(chooser)
    await chooser.getByRole('button', { name: 'Take it now' }).click()
    await chooser.getByText('another tab has a run open').waitFor()
    await worker.reload()
    expect(await worker.title()).toBe('Sidecall')
    expect(await chooser.title()).toBe('Sidecall')
    await worker.close()
    await expect
      .poll(
        async () => {
          await pressNow(chooser, 'Take it now')
          return chooser.title()
        },
        { timeout: 45_000 }
      )
      .toBe('Sidecall, newer')
  })

  test('is not kept by halves: a file that is not of its version leaves the old one in service', async () => {
    await serve(TWO_STEPS)
    const page = await firstTab()
    await putNewer()
    const style = readdirSync(join(pageFolder, 'assets')).find((name) => name.endsWith('.css')) ?? ''
    writeFileSync(join(pageFolder, 'assets', style), '/* of yet another version */')
    await page.evaluate(async () => {
      const registration = await navigator.serviceWorker.ready
      const over = new Promise<void>((resolve) => {
        registration.addEventListener('updatefound', () => {
          const { installing } = registration
          installing?.addEventListener('statechange', () => {
            if (installing.state === 'redundant') resolve()
          })
        })
      })
      await registration.update().catch(() => undefined)
      await over
    })
    expect(await page.evaluate(() => caches.keys())).toHaveLength(1)
    await server.stop()
    await page.reload()
    await page.locator('.card').waitFor()
    expect(await page.title()).toBe('Sidecall')
  })
})

/** Whatever is offered is fetched behind the screen. */
async function procedureIsKept(page: Page): Promise<void> {
  await expect
    .poll(() =>
      page.evaluate(
        () =>
          new Promise<number>((resolve, reject) => {
            const opening = indexedDB.open('sidecall')
            opening.addEventListener('error', () => reject(opening.error))
            opening.addEventListener('success', () => {
              const counting = opening.result.transaction('procedures').objectStore('procedures').count()
              counting.addEventListener('success', () => {
                opening.result.close()
                resolve(counting.result)
              })
            })
          })
      )
    )
    .toBe(1)
}
