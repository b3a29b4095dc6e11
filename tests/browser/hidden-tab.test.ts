/** A tab behind another one, truly hidden and held back: its alarm rings all the same, and the run goes on. */
import type { Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest'
import { layOut } from '../../src/core/procedure/course.ts'
import { aProcedure, withHead } from '../helpers/a-procedure.ts'
import { kitchenServer, type KitchenServer } from '../helpers/kitchen-server.ts'
import { wrongIn } from '../helpers/run-oracle.ts'
import { hide, hideableBrowser, type HideableBrowser } from './hideable-browser.ts'
import { installScriptedVoice } from './scripted-voice.ts'
import { tapSound } from './sound-tap.ts'

const WAIT_MS = 6000
const ONE_WAIT = withHead(`  - stage: Soak
    steps:
      - {step: soak, on: [left], say: Fill the tray., hands: 5 s, wait: {for: soak, at least: 6 s, source: Common practice}}
      - {step: empty, on: [left], say: Empty the tray., hands: 5 s}`)
/** Chromium lets the timers of a hidden page through once in each second. */
const LET_THROUGH_EVERY_MS = 1000
/** The loudspeaker's clock is told to the page a little off. */
const CLOCKS_APART_MS = 20

let browser: HideableBrowser
let server: KitchenServer
let page: Page
let complaints: string[]

beforeAll(async () => {
  browser = await hideableBrowser()
})
afterAll(() => browser.end())

beforeEach(async () => {
  server = await kitchenServer([ONE_WAIT])
  page = await browser.context.newPage()
  complaints = []
  page.on('pageerror', (error) => complaints.push(String(error)))
  await page.addInitScript('globalThis.__name = (named) => named')
  await page.addInitScript(installScriptedVoice)
  await tapSound(page)
})
afterEach(async () => {
  await page.close()
  await server.end()
  if (complaints.length > 0) throw new Error(complaints.join('\n'))
})

/** Starts a chain of timers of 50 ms; the function returned tells how far apart they came, ms. */
async function watchTimers(): Promise<() => Promise<readonly number[]>> {
  const chain = await page.evaluateHandle(() => {
    const gaps: number[] = []
    let last = performance.now()
    const next = () => {
      gaps.push(performance.now() - last)
      last = performance.now()
      setTimeout(next, 50)
    }
    setTimeout(next, 50)
    return gaps
  })
  return () => chain.jsonValue()
}

async function hear(words: string): Promise<void> {
  await expect.poll(() => page.evaluate((said) => sidecallVoice.hear(said), words), { timeout: 15_000 }).toBe(true)
}

test('the alarm of a wait rings while the tab is hidden, no sooner, and the run goes on when it is looked at', async () => {
  await page.goto(server.url)
  await page.locator('.card').click()
  await page.getByLabel('Who is doing it?').fill('Ada')
  await page.getByRole('button', { name: 'Start', exact: true }).click()
  await page.locator('[data-call=step]').waitFor()
  await page.waitForFunction(() => sidecallSound.listening)
  await hear('all done')
  await page.locator('[data-call=all-waiting]').waitFor()

  const show = await hide(page)
  const gaps = await watchTimers()
  await page.locator('.alarm').waitFor({ state: 'attached', timeout: 20_000 })
  await expect.poll(() => page.evaluate(() => sidecallSound.begun), { timeout: 5000 }).toMatchObject([{ hidden: true }])
  await expect.poll(() => page.evaluate(() => sidecallVoice.said.at(-1)), { timeout: 5000 }).toMatch(/^Left\./)
  // Late ones are let through sooner after the one before, but never two in one second: a visible page has twenty.
  const held = await gaps()
  expect(held.length).toBeGreaterThan(1)
  expect(held.length).toBeLessThanOrEqual(2 + held.reduce((sum, gap) => sum + gap, 0) / LET_THROUGH_EVERY_MS)
  expect(await page.evaluate(() => document.visibilityState)).toBe('hidden')

  await show()
  await hear('yes')
  await page.locator('.alarm').waitFor({ state: 'detached' })
  await hear('next step')
  await page.locator('.finished').waitFor()
  await expect.poll(async () => (await server.events()).map(({ type }) => type)).toContain('run-finished')
  const kept = await server.events()
  expect(wrongIn(layOut(aProcedure(ONE_WAIT)).procedure, kept)).toEqual([])
  const atOf = (type: string) => kept.find((event) => event.type === type)?.at ?? Number.NaN
  expect(atOf('wait-acknowledged') - atOf('step-done')).toBeGreaterThanOrEqual(WAIT_MS)
  const begunAt = await page.evaluate(() => performance.timeOrigin + (sidecallSound.begun[0]?.at ?? Number.NaN))
  const doneAt = kept.find(({ type }) => type === 'step-done')?.deviceAt ?? Number.NaN
  expect(begunAt - doneAt).toBeGreaterThanOrEqual(WAIT_MS - CLOCKS_APART_MS)
})
