/** The page for sums in a real browser, on the built page and the real server. */
import { fileURLToPath } from 'node:url'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { loadRules, offered } from '../../../server/procedures/load-rules.ts'
import { SMALL } from '../../helpers/a-procedure.ts'
import { kitchenServer, type KitchenServer } from '../../helpers/kitchen-server.ts'
import { launchChromium } from '../launch.ts'

let browser: Browser
let server: KitchenServer
let page: Page

beforeAll(async () => {
  browser = await launchChromium()
  const rules = offered(await loadRules(fileURLToPath(new URL('../../../procedures/rules', import.meta.url))))
  server = await kitchenServer([SMALL], undefined, rules)
  page = await browser.newPage({ viewport: { width: 390, height: 844 } })
})
afterAll(async () => {
  await browser.close()
  await server.end()
})

const answers = () => page.locator('.sum-answer').allInnerTexts()

test('mixing and judging, with cautions in sight and sources named', async () => {
  await page.goto(server.url)
  await page.getByRole('button', { name: 'Mix a batch, or judge a reading' }).click()
  await page.getByRole('heading', { name: 'How much product?' }).waitFor()
  expect(await page.locator('.sum-cautions').innerText()).toMatch(
    /Acid and bleach give off chlorine gas, which can kill/
  )

  await page.getByLabel('Strength wanted, ppm').fill('100')
  await page.getByLabel(/^Whole batch/).fill('2 gal')
  await page.getByLabel('Measure', { exact: true }).selectOption('tsp-us')
  const [recipe = ''] = await answers()
  // By weight at 1.1 kg/L, 8.25 % has 86,429 ppm available; 7.571 L at 100 ppm take 8.76 mL, 1.78 US teaspoons.
  expect(recipe).toContain('Put 2 US tsp in')
  expect(recipe).toContain('Read a strip before you use it.')

  await page.getByLabel('Strength wanted, ppm').fill('1,000')
  expect((await answers())[0]).toContain('Fill in the fields')
  expect(await page.getByText('Do you mean 1 or 1000?').isVisible()).toBe(true)

  await page.getByLabel('Strength, ppm', { exact: true }).fill('90')
  await page.getByLabel(/^Temperature/).fill('75 F')
  const [, verdict = ''] = await answers()
  expect(verdict).toContain('Not good')
  expect(verdict).toContain('Source: Label of Example Sanitizer (invented)')
  expect(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true)

  await page.getByRole('button', { name: 'Back' }).click()
  await page.getByRole('heading', { name: 'What will you clean?' }).waitFor()
})

test('the sums work while the server is away, once they have been seen', async () => {
  await server.stop()
  await page.getByRole('button', { name: 'Mix a batch, or judge a reading' }).click()
  await page.getByLabel('Strength wanted, ppm').fill('100')
  await page.getByLabel(/^Whole batch/).fill('7.6 L')
  expect((await answers())[0]).toContain('mL in, and fill up with cool water to 7.6 L')
  await server.start()
})
