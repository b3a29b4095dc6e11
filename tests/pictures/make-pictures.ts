/** `npm run pictures`: draws the README's pictures from the real page on the real server. */
import { fileURLToPath } from 'node:url'
import type { Page } from 'playwright-core'
import { builtShop } from '../bench/page/built-shop.ts'
import { SHIPPED_TITLE } from '../bench/page/procedures.ts'
import { begin, freshPage, gather, mainKey, settle } from '../bench/page/operator.ts'
import { launchChromium } from '../browser/launch.ts'

const TITLE = 'Closing clean, as in the picture'

/** Both sides soak, and the hands are at the bench: what the page is for. */
const PROCEDURE = `procedure: picture
title: ${TITLE}
summary: Only for the picture.
languages: [en]
machine: Twin soft-serve freezer
sides:
  - {id: left, name: Left}
  - {id: right, name: Right}
stages:
  - stage: Soak
    steps:
      - {step: soak, say: Turn the control to wash., hands: 10 s, wait: {for: agitation, at least: 5 min, at most: 15 min, source: Common practice}}
      - {step: drain, say: Draw the cleaner into the waste pail., hands: 50 s}
  - stage: Bench
    steps:
      - {step: rings, on: bench, say: Roll every O-ring off pumps and feed tubes., hands: 90 s}
      - {step: caps, on: bench, say: Take the valve cap off each pump., hands: 60 s, wait: {for: soak, at least: 4 min, source: Common practice}}
  - stage: End
    steps:
      - {step: power, on: whole machine, say: Turn the power switch off., hands: 15 s}
`

const shop = await builtShop({ 'picture.yaml': PROCEDURE })
const browser = await launchChromium()
const pathOf = (name: string) => fileURLToPath(new URL(`../../public/${name}`, import.meta.url))

/** A device that speaks both languages. */
function speakSpanishToo(): void {
  const [english] = speechSynthesis.getVoices()
  if (!english) return
  const spanish = Object.assign(Object.create(english), { lang: 'es-US', name: 'Spanish' })
  speechSynthesis.getVoices = () => [english, spanish]
}

async function opened(width: number, height: number): Promise<Page> {
  const page = await freshPage(await browser.newContext({ viewport: { width, height }, hasTouch: true }))
  await page.addInitScript(speakSpanishToo)
  await page.goto(shop.url)
  return page
}

async function drawRun(): Promise<void> {
  const page = await opened(1280, 800)
  await gather(page, TITLE)
  await begin(page)
  for (const lane of ['Left', 'Right']) {
    await page.locator('.lane-tag', { hasText: lane }).waitFor()
    await settle(page)
    await mainKey(page).click()
  }
  await page.locator('.lane-tag', { hasText: 'Bench' }).waitFor()
  await settle(page)
  await page.screenshot({ path: pathOf('run-screen.png') })
}

async function drawPlan(): Promise<void> {
  // High enough for nothing to lie over the plan.
  const page = await opened(1280, 2400)
  await gather(page, SHIPPED_TITLE)
  const plan = page.locator('.whole-plan')
  await plan.waitFor()
  await settle(page)
  await plan.screenshot({ path: pathOf('plan.png') })
}

async function drawTelephone(): Promise<void> {
  const page = await opened(390, 844)
  await page.getByText('Español').click()
  await page.locator('.card').first().click()
  await page.getByLabel('¿Quién lo hace?').fill('Ada')
  await page.getByRole('button', { name: 'Empezar', exact: true }).click()
  await page.locator('.call-area[data-call]').waitFor()
  await settle(page)
  await page.screenshot({ path: pathOf('telephone.png') })
}

try {
  for (const draw of [drawRun, drawPlan, drawTelephone]) await draw()
} finally {
  await browser.close()
  await shop.end()
}
