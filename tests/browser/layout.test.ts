/** The page at the sizes it is made for: nothing off the screen, nothing cut, targets a gloved hand can hit. */
import { chromium, type Browser, type BrowserContext, type Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { withHead } from '../helpers/a-procedure.ts'
import { kitchenServer, type KitchenServer } from '../helpers/kitchen-server.ts'
import { installScriptedVoice } from './scripted-voice.ts'

/** As much text as the rules of writing allow. */
const WORDY = withHead(
  `  - stage: Wash
    steps:
      - {step: lay, say: Lay all these parts on the clean rack so that none touch., hands: 10 s}
      - step: mix
        say: Mix the cleaner in the clean pail.
        hands: 30 s
        cautions:
          - {signal: warning, hazard: Cleaner mixed with another chemical., consequence: Bleach with acid or ammonia gives off a gas that can kill., avoid: Use one product in a rinsed pail and never add another.}
          - {signal: caution, hazard: Cleaner and hot water., consequence: They can burn skin and eyes., avoid: Keep gloves and goggles on. Rinse a splash with much water at once.}
        confirm: hands are clear of the beater
      - step: warm
        say: Measure the temperature of the cleaner in the pail.
        hands: 20 s
        read:
          question: How many degrees is the cleaner in the clean pail?
          reading: temperature
          unit: C
          at least: 43
          at most: 49
          source: Common practice. The product label comes first, then the maker's manual and local code.
          if not: ["Add hot or cool water, keep the dose by the label, and take a new reading.", Throw it away and mix a fresh pail by the product label., Call the supervisor before you go on.]
      - {step: scrub, on: bench, say: Scrub the tray., hands: 1 min}`
)

const SIZES = [
  { width: 1280, height: 800, distance: 'far' },
  { width: 1280, height: 800, distance: 'near' },
  { width: 1024, height: 768, distance: 'near' },
  { width: 800, height: 1280, distance: 'near' },
  { width: 390, height: 844, distance: 'hand' }
] as const

let browser: Browser
let server: KitchenServer
let context: BrowserContext
let page: Page

beforeAll(async () => {
  browser = await chromium.launch({
    executablePath: process.env['SIDECALL_CHROMIUM'] ?? '/usr/bin/chromium',
    args: ['--no-sandbox', '--disable-gpu']
  })
  server = await kitchenServer([WORDY])
})
afterAll(async () => {
  await browser.close()
  await server.end()
})

/** What is off the screen, cut, or too small to hit; and how large the headline came out. */
function faultsInPage(): { readonly faults: readonly string[]; readonly headline: number } {
  const faults: string[] = []
  const isRun = document.querySelector('.run') !== null
  if (document.documentElement.scrollWidth > innerWidth) faults.push('the page scrolls sideways')
  for (const element of document.querySelectorAll<HTMLElement>('#page *')) {
    const name = `${element.tagName.toLowerCase()}.${element.className} "${(element.textContent ?? '').slice(0, 30)}"`
    if (element.closest('svg, .notes, .across')) continue
    const { left, right, bottom, height, width } = element.getBoundingClientRect()
    if (width === 0) continue
    if (left < -1 || right > innerWidth + 1) faults.push(`${name} is off the side`)
    const mayScroll = element.closest('.panel-body, .corrections') !== null
    if (isRun && bottom > innerHeight + 1 && !mayScroll) faults.push(`${name} is below the screen`)
    const cuts = getComputedStyle(element).overflowY !== 'visible' && element.scrollHeight > element.clientHeight + 1
    // What comes next may end in dots: the call itself will say it in full.
    if (cuts && !element.matches('.run, .stave-track, .stave-next, .panel-body, .corrections'))
      faults.push(`${name} is cut`)
    if (element.matches('.press.work, .press.main') && height < 104) faults.push(`${name} is ${height} px high`)
  }
  const headline = document.querySelector('.headline')
  return { faults, headline: headline ? parseFloat(getComputedStyle(headline).fontSize) : 0 }
}

async function look(): Promise<number> {
  await pass(150)
  // Sizes are fitted just before a frame is painted; a look between the change and that frame sees what nobody does.
  await expect.poll(async () => (await page.evaluate(faultsInPage)).faults, { timeout: 3000 }).toEqual([])
  return (await page.evaluate(faultsInPage)).headline
}

/** The page's timers run; nobody waits for them. */
async function pass(ms: number): Promise<void> {
  server.pass(ms)
  await page.clock.runFor(ms)
}

const answer = () => page.locator('.actions > .press.main').first()
const way = async (name: string) => {
  await page.getByRole('button', { name: 'Other …' }).click()
  await page.locator('.ways').getByRole('button', { name, exact: true }).click()
}

describe.each(SIZES)('$width x $height, read from $distance', ({ width, height, distance }) => {
  test('every screen of a run fits, and its targets can be hit', async () => {
    context = await browser.newContext({ viewport: { width, height } })
    await context.addInitScript('globalThis.__name = (named) => named')
    await context.addInitScript(installScriptedVoice)
    page = await context.newPage()
    await page.clock.install()
    await page.goto(server.url)
    await page.locator('.card').first().waitFor()
    await page.locator('summary').click()
    await page.locator(`input[value=${distance}]`).check()
    await look()
    await page.locator('.card').first().click()
    await page.getByLabel('Who is doing it?').fill('Ada')
    await look()
    await page.getByRole('button', { name: 'Start', exact: true }).click()
    await page.locator('[data-call=step]').waitFor()

    const longest = await look()
    // 2 m x tan(16') = 9.3 mm of capitals, the least of ISO 9241-3; 0.7 em, 0.17 mm a pixel: 78 px. Far is 1280 x 800 only.
    if (distance === 'far') expect(longest).toBeGreaterThanOrEqual(78)

    await page.getByRole('button', { name: 'Other …' }).click()
    await look()
    await page.locator('.ways').getByRole('button', { name: 'Close' }).click()
    for (const name of [
      'A problem',
      'Type words',
      'Who is at work',
      'What was said',
      'Keys',
      'Ears and voice',
      'End early'
    ]) {
      await way(name)
      await look()
      await page.locator('.panel > .press').click()
    }

    await pass(600)
    await answer().click()
    await page.locator('[data-call=caution]').waitFor()
    await look()
    await pass(600)
    await answer().click()
    await page.locator('.hold').waitFor()
    await look()
    await pass(600)
    await page.locator('.hold').hover()
    await page.mouse.down()
    await pass(900)
    await page.mouse.up()
    await page.getByRole('button', { name: 'Enter the number' }).waitFor()
    await look()
    await pass(600)
    await answer().click()
    for (const digit of ['2', '0'])
      await page.locator('.number-keys').getByRole('button', { name: digit, exact: true }).click()
    await look()
    await page.getByRole('button', { name: 'Record' }).click()
    await page.locator('[data-call=stopped]').waitFor()
    await look()
    await page.reload()
    await page.locator('.needs-tap').waitFor()
    await look()
    await context.close()
  })
})

test('a hold that is let go too early, or wanders, confirms nothing', async () => {
  context = await browser.newContext({ viewport: { width: 1280, height: 800 } })
  await context.addInitScript('globalThis.__name = (named) => named')
  page = await context.newPage()
  await page.clock.install()
  await page.goto(server.url)
  await page.locator('.card').first().click()
  await page.getByLabel('Who is doing it?').fill('Ada')
  await page.getByRole('button', { name: 'Start', exact: true }).click()
  await page.locator('[data-call=step]').waitFor()
  await pass(600)
  await answer().click()
  await page.locator('[data-call=caution]').waitFor()
  await pass(600)
  await answer().click()
  const hold = page.locator('.hold')
  await hold.hover()
  await pass(600)

  await page.mouse.down()
  await pass(500)
  await page.mouse.up()
  await pass(600)
  expect(await hold.count()).toBe(1)

  const box = await hold.boundingBox()
  if (!box) throw new Error('no hold button')
  await page.mouse.move(box.x + 40, box.y + 40)
  await page.mouse.down()
  await pass(200)
  await page.mouse.move(box.x + 140, box.y + 40)
  await pass(1000)
  await page.mouse.up()
  expect(await hold.count()).toBe(1)

  await page.mouse.down()
  await pass(900)
  await page.mouse.up()
  await page.getByRole('button', { name: 'Enter the number' }).waitFor()
  await context.close()
})
