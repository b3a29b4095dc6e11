/** Rendered speech in a real browser: it sounds, it ends, and what is not there is said by the device. */
import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest'
import { withHead } from '../helpers/a-procedure.ts'
import { kitchenServer, type KitchenServer } from '../helpers/kitchen-server.ts'
import { tonedSpeech } from '../helpers/toned-speech.ts'
import { installScriptedVoice, type ScriptedVoice } from './scripted-voice.ts'
import { tapSound } from './sound-tap.ts'
import { launchChromium } from './launch.ts'

declare global {
  // Only inside the page.
  var sidecallVoice: ScriptedVoice
}

const TWO_STEPS = withHead(`  - stage: A
    steps:
      - {step: wipe, on: left, say: Wipe the left door., hands: 20 s}
      - {step: rinse, on: left, say: Rinse the left hopper., hands: 20 s}
      - {step: zebra, on: left, say: Brush the zebra., hands: 20 s}
      - {step: dry, on: right, say: Dry the right door., hands: 20 s}`)

let browser: Browser
let server: KitchenServer
let context: BrowserContext
let page: Page

beforeAll(async () => {
  browser = await launchChromium()
})
afterAll(() => browser.close())

beforeEach(async () => {
  server = await kitchenServer([TWO_STEPS], undefined, undefined, tonedSpeech)
  context = await browser.newContext({ viewport: { width: 1280, height: 800 } })
  // The transpiler may name functions through this helper, which a page does not have.
  await context.addInitScript('globalThis.__name = (named) => named')
  await context.addInitScript(installScriptedVoice)
  page = await context.newPage()
  await tapSound(page)
  await page.goto(server.url)
})
afterEach(async () => {
  await context.close()
  await server.end()
})

async function gather(): Promise<void> {
  await page.locator('.card').click()
  await page.getByLabel('Who is doing it?').fill('Ada')
}

const begun = () => page.evaluate(() => sidecallSound.begun.length)
const spokenByDevice = () => page.evaluate(() => sidecallVoice.said)

/** Once what is being said is over: the ears open only then. */
async function say(words: string): Promise<void> {
  await page.waitForFunction((said) => sidecallVoice.hear(said), words, { polling: 50 })
}

test('the voice sounds, ends, and opens the ears; the device itself stays silent', async () => {
  await gather()
  await page.getByText('The whole voice is on this device.').waitFor()
  await page.getByRole('button', { name: 'Start', exact: true }).click()
  await page.waitForFunction(() => sidecallSound.begun.length >= 1)
  await say('all done')
  await page.locator('.call-text', { hasText: 'Rinse the left hopper.' }).waitFor()
  expect(await spokenByDevice()).toEqual([])
})

test('with the server gone the voice is still there', async () => {
  await gather()
  await page.getByText('The whole voice is on this device.').waitFor()
  await server.stop()
  await page.getByRole('button', { name: 'Start', exact: true }).click()
  await page.waitForFunction(() => sidecallSound.begun.length >= 1)
  expect(await spokenByDevice()).toEqual([])
})

test('after a reload nothing sounds before a tap, and everything after it', async () => {
  await gather()
  await page.getByText('The whole voice is on this device.').waitFor()
  await page.getByRole('button', { name: 'Start', exact: true }).click()
  await page.waitForFunction(() => sidecallSound.begun.length >= 1)
  await page.reload()
  await page.locator('.call-area').waitFor()
  expect(await begun()).toBe(0)
  await page.locator('.needs-tap').click()
  await page.waitForFunction(() => sidecallSound.begun.length >= 1)
  expect(await begun()).toBeGreaterThan(0)
})

test('what has no clip is said by the engine in its worker where the device has no voice', async () => {
  await page.evaluate(() => {
    speechSynthesis.getVoices = () => []
    speechSynthesis.dispatchEvent(new Event('voiceschanged'))
  })
  await gather()
  await page.getByText('The whole voice is on this device.').waitFor()
  await page.getByRole('button', { name: 'Start', exact: true }).click()
  await say('all done')
  await page.locator('.call-text', { hasText: 'Rinse the left hopper.' }).waitFor()
  // The tap hears a new sound only after a second of silence; the call before takes two or three to be said.
  await page.waitForTimeout(5000)
  // Counted in the moment of the word: what answers it may sound at once.
  const counted = await page.waitForFunction(
    () => (sidecallVoice.hear('all done') ? { before: sidecallSound.begun.length } : null),
    undefined,
    { polling: 50 }
  )
  const before = (await counted.jsonValue())?.before ?? Number.NaN
  await page.locator('.call-text', { hasText: 'Brush the zebra.' }).waitFor()
  // The engine has to come first, and then speaks the whole line.
  await page.waitForFunction((count) => sidecallSound.begun.length > count, before)
  await say('say again')
  expect(await spokenByDevice()).toEqual([])
})
