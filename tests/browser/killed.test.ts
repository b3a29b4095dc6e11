/** Chromium is killed in the middle of a run, again and again: what was announced is still there. */
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { withHead } from '../helpers/a-procedure.ts'
import { kitchenServer, type KitchenServer } from '../helpers/kitchen-server.ts'
import { hideableBrowser, type HideableBrowser } from './hideable-browser.ts'

const KILLS = Number(process.env['SIDECALL_KILLS'] ?? 3)
const STEPS = Array.from({ length: 200 }, (_, index) => index + 1)
const MANY_STEPS = withHead(`  - stage: Wipe
    steps:
${STEPS.map((step) => `      - {step: wipe-${step}, on: [left], say: Wipe panel ${step}., hands: 1 s}`).join('\n')}`)

let server: KitchenServer
let profile = ''

beforeAll(async () => {
  profile = mkdtempSync(join(tmpdir(), 'sidecall-killed-'))
  server = await kitchenServer([MANY_STEPS])
})
afterAll(async () => {
  await server.end()
  rmSync(profile, { recursive: true, force: true, maxRetries: 5 })
})

/** The number of the panel that is called for now; 0 while none is. */
const panel = (page: Page): Promise<number> =>
  page.evaluate(() => Number(/Wipe panel (\d+)/.exec(document.querySelector('.headline')?.textContent ?? '')?.[1] ?? 0))

async function opened(browser: HideableBrowser): Promise<Page> {
  const page = await browser.context.newPage()
  await page.goto(server.url)
  return page
}

test(
  `killed ${KILLS} times, it goes on from the last call that was announced`,
  { timeout: 60_000 + KILLS * 30_000 },
  async () => {
    let announced = 0
    for (let kill = 0; kill <= KILLS; kill += 1) {
      const browser = await hideableBrowser(profile)
      const page = await opened(browser)
      if (kill === 0) {
        await page.locator('.card').click()
        await page.getByLabel('Who is doing it?').fill('Ada')
        await page.getByRole('button', { name: 'Start', exact: true }).click()
      } else await page.locator('.needs-tap').click()
      await page.locator('.call-area').waitFor()
      expect(await panel(page)).toBeGreaterThanOrEqual(announced)
      const goal = announced + 2
      await expect
        .poll(
          async () => {
            await page.keyboard.press('Space')
            announced = Math.max(announced, await panel(page))
            return announced
          },
          { timeout: 60_000, interval: 40 }
        )
        .toBeGreaterThanOrEqual(goal)
      // In the middle of the next one, and of sending what went before.
      if (kill < KILLS) {
        await page.keyboard.press('Space')
        await browser.kill()
      } else {
        await expect.poll(async () => wiped(), { timeout: 60_000 }).toBeGreaterThanOrEqual(announced - 1)
        await browser.end()
      }
    }
  }
)

/** How many steps the server has, each once. */
async function wiped(): Promise<number> {
  const done = (await server.events()).flatMap((event) => (event.type === 'step-done' ? [event.step] : []))
  if (new Set(done).size !== done.length) throw new Error('A step is there twice.')
  return done.length
}
