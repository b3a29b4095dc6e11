/** `npm run pictures`: draws the README's pictures from the real page on the real server. */
import { fileURLToPath } from 'node:url'
import { chromium } from 'playwright-core'
import { builtShop } from '../bench/page/built-shop.ts'
import { begin, freshPage, gather, mainKey, settle } from '../bench/page/operator.ts'

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
const browser = await chromium.launch({
  executablePath: process.env['SIDECALL_CHROMIUM'] ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu']
})
try {
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 }, hasTouch: true })
  const page = await freshPage(context)
  await page.goto(shop.url)
  await gather(page, TITLE)
  await begin(page)
  for (const lane of ['Left', 'Right']) {
    await page.locator('.lane-tag', { hasText: lane }).waitFor()
    await settle(page)
    await mainKey(page).click()
  }
  await page.locator('.lane-tag', { hasText: 'Bench' }).waitFor()
  await settle(page)
  const path = fileURLToPath(new URL('../../public/run-screen.png', import.meta.url))
  await page.screenshot({ path })
  console.log(`Drawn: ${path}`)
} finally {
  await browser.close()
  await shop.end()
}
