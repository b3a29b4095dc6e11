import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest'
import { readFileSync } from 'node:fs'
import { layOut, type Course } from '../../src/core/procedure/course.ts'
import { replay } from '../../src/core/run/reduce.ts'
import { aProcedure, EVERYTHING, withHead } from '../helpers/a-procedure.ts'
import { kitchenServer, type KitchenServer } from '../helpers/kitchen-server.ts'
import { wrongIn } from '../helpers/run-oracle.ts'
import { hastyOperator } from './hasty-operator.ts'
import { installScriptedVoice, type ScriptedVoice } from './scripted-voice.ts'
import { launchChromium } from './launch.ts'

declare global {
  // Only inside the page.
  var sidecallVoice: ScriptedVoice
}

let course: Course
let browser: Browser
let server: KitchenServer
let context: BrowserContext
let page: Page
let complaints: string[]

beforeAll(async () => {
  browser = await launchChromium('--disable-background-networking', '--disable-component-update', '--disable-sync')
})
afterAll(() => browser.close())

beforeEach(async () => {
  await serve(EVERYTHING)
  context = await browser.newContext({ viewport: { width: 1280, height: 800 } })
  // The transpiler may name functions through this helper, which a page does not have.
  await context.addInitScript('globalThis.__name = (named) => named')
  await context.addInitScript(installScriptedVoice)
  page = await context.newPage()
  complaints = []
  page.on('pageerror', (error) => complaints.push(String(error)))
})
afterEach(async () => {
  await context.close()
  await server.end()
  if (complaints.length > 0) throw new Error(complaints.join('\n'))
})

async function serve(yamlText: string): Promise<void> {
  server = await kitchenServer([yamlText])
  course = layOut(aProcedure(yamlText))
}

/** Another procedure than the usual one. */
async function serveInstead(yamlText: string): Promise<void> {
  await server.end()
  await serve(yamlText)
}

async function start(): Promise<void> {
  await page.goto(server.url)
  await page.locator('.card').click()
  await page.getByLabel('Who is doing it?').fill('Ada')
  await page.getByRole('button', { name: 'Start', exact: true }).click()
  await page.locator('.call-area').waitFor()
}

const { events, shownNow, pass, say, workUntil } = hastyOperator(() => ({ page, server, course }))

async function serverHasAll(): Promise<void> {
  await expect
    .poll(
      async () => {
        await pass(5000)
        return replay(course, 'run', await events()).status
      },
      { timeout: 20_000 }
    )
    .toBe('finished')
}

const SHORT_WAIT = withHead(`  - stage: Soak
    steps:
      - {step: soak, on: [left], say: Fill the tray., hands: 5 s, wait: {for: soak, at least: 6 s, source: Common practice}}
      - {step: empty, on: [left], say: Empty the tray., hands: 5 s}`)

describe('a whole run in a real browser', () => {
  test(
    'the shipped closing by voice (alarms by key), with the server gone and back in the middle',
    { timeout: 300_000 },
    async () => {
      await serveInstead(readFileSync(new URL('../../procedures/twin-freezer-closing.yaml', import.meta.url), 'utf8'))
      await page.clock.install()
      await start()
      await workUntil((_, call) => call.kind === 'all-waiting')
      await server.stop()
      await pass(16_000)
      await expect.poll(() => page.locator('.guard.dead').count()).toBeGreaterThan(0)
      await server.start()
      await pass(16_000)
      await workUntil((shown) => shown === 'finished')
      await serverHasAll()
      expect(wrongIn(course.procedure, await events())).toEqual([])
    }
  )

  test('by voice: early "all done" refused, reload in the middle of the waits, on to the end', async () => {
    await page.clock.install()
    await start()
    await workUntil((shown, call) => shown === 'all-waiting' && call.kind === 'all-waiting')
    await say('all done')
    const said = () => page.evaluate(() => sidecallVoice.said.some((text) => text.startsWith('Too soon.')))
    await expect.poll(said, { timeout: 10_000 }).toBe(true)

    await page.reload()
    await page.getByRole('button', { name: /go on/i }).click()
    await page.locator('.call-area').waitFor()
    expect(await shownNow()).toBe('all-waiting')
    await workUntil((shown) => shown === 'finished')
    await serverHasAll()
    expect(wrongIn(course.procedure, await events())).toEqual([])
  })

  test('by keys alone, a pedal’s keys included, as far as the first reading', async () => {
    await start()
    await page.waitForTimeout(600)
    await page.keyboard.press('PageDown')
    await page.waitForTimeout(700)
    // A caution takes more than the everyday key.
    await page.keyboard.press('Space')
    await page.waitForTimeout(700)
    await page.keyboard.press('y')
    await page.waitForTimeout(700)
    await page.keyboard.press('Space')
    const kinds = async () => (await events()).map(({ type }) => type)
    await expect
      .poll(async () => (await kinds()).filter((type) => type === 'step-done').length, { timeout: 10_000 })
      .toBe(2)
    expect(await kinds()).toContain('caution-acknowledged')
    expect(await kinds()).toContain('refused')
  })

  test('in real time: reload in a wait, the alarm fills the screen, spoken words answer it and go on', async () => {
    await serveInstead(SHORT_WAIT)
    const hear = (words: string) =>
      expect.poll(() => page.evaluate((said) => sidecallVoice.hear(said), words), { timeout: 15_000 }).toBe(true)
    await start()
    await hear('all done')
    await page.locator('.call-area[data-call="all-waiting"]').waitFor()
    await page.reload()
    await page.getByRole('button', { name: /go on/i }).click()
    await page.locator('.alarm').waitFor({ timeout: 15_000 })
    await hear('yes')
    await page.locator('.alarm').waitFor({ state: 'detached', timeout: 5000 })
    await page.waitForTimeout(1000)
    await hear('next step')
    await page.locator('.finished').waitFor({ timeout: 15_000 })
  })

  test('work targets are at least 104 px, the headline of a near screen 20 minutes of arc, and nothing overflows', async () => {
    await start()
    for (const [width, height] of [
      [1280, 800],
      [1024, 768],
      [390, 844]
    ] as const) {
      await page.setViewportSize({ width, height })
      await page.waitForTimeout(300)
      for (const button of await page.locator('.actions button').all()) {
        const box = await button.boundingBox()
        expect(Math.round(box?.height ?? 0)).toBeGreaterThanOrEqual(104)
      }
      const overflow = await page.evaluate(
        () => document.documentElement.scrollWidth - document.documentElement.clientWidth
      )
      expect(overflow).toBe(0)
    }
    await page.setViewportSize({ width: 1280, height: 800 })
    const size = await page.locator('.headline').evaluate((element) => parseFloat(getComputedStyle(element).fontSize))
    // 1.5 m x tan(20') = 8.7 mm of capitals, 0.7 em, 0.17 mm a pixel: 73 px (ISO 9241-3, 20 to 22 minutes preferred).
    expect(size).toBeGreaterThanOrEqual(73)
  })
})
