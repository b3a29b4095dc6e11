/**
 * A page in a real browser whose microphone hears a kitchen: the app's own voice and alarms, the operator, and whoever
 * else talks. The voices are synthetic, and so is the room.
 */
import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, beforeEach } from 'vitest'
import { withHead } from '../../helpers/a-procedure.ts'
import { engineSpeech } from '../../helpers/engine-speech.ts'
import { kitchenServer, type KitchenServer } from '../../helpers/kitchen-server.ts'
import { spokenBy, type Person } from '../../helpers/spoken-by.ts'
import { launchChromium } from '../launch.ts'
import { mixMicrophone, packedSamples } from '../mixed-microphone.ts'

export const SHORT = withHead(`  - stage: Clean
    steps:
      - step: fill
        on: left
        say: Hold the left lid and put the pail on.
        hands: 10 s
        wait: {for: soak, at least: 12 s, source: Common practice}
      - {step: wipe, on: right, say: Wipe the right door., hands: 10 s}
      - {step: rinse, on: left, say: Rinse the left hopper., hands: 10 s}
      - {step: close, on: whole machine, say: Close the cover., hands: 10 s}`)

/** None of the paces of practice. */
const PACE = 1.18
export const MOST_TRIES = 6

export interface HeardKitchen {
  readonly page: () => Page
  readonly server: () => KitchenServer
  open(procedure: string): Promise<void>
  /** Under the operator's name, at three paces. */
  practise(words: string): Promise<void>
  start(): Promise<void>
  /** The page listens, and has for a moment: the ears have to know the room. */
  listening(): Promise<void>
  /** Into the microphone as it is. */
  speak(words: string): Promise<void>
  /** Once the page listens. */
  say(words: string): Promise<void>
  /** As an operator does: again, when it was not heard. On a busy machine sound is lost. */
  sayUntil(isSo: () => Promise<boolean>, words?: string): Promise<void>
  sayDone(step: string): Promise<void>
  /** What the operator's voice did, as the server knows it. Where it called the hands to follows from that. */
  byVoice(): Promise<readonly string[]>
  /** All that was heard so far, in words, whether it meant something or not. */
  heard(): Promise<readonly string[]>
}

/** Call once in a test file. */
export function heardKitchen(): HeardKitchen {
  let browser: Browser
  let server: KitchenServer
  let context: BrowserContext
  let page: Page
  let operator: Person

  beforeAll(async () => {
    browser = await launchChromium('--autoplay-policy=no-user-gesture-required')
    operator = await spokenBy('slt')
  })
  afterAll(() => browser.close())

  beforeEach(async () => {
    context = await browser.newContext({ viewport: { width: 1280, height: 800 }, permissions: ['microphone'] })
    page = await context.newPage()
    await mixMicrophone(page)
  })

  async function open(procedure: string): Promise<void> {
    server = await kitchenServer([procedure], undefined, undefined, engineSpeech)
    await page.goto(server.url)
  }

  afterEach(async () => {
    await context.close()
    await server.end()
  })

  async function listening(): Promise<void> {
    await page.locator('.guard.good', { hasText: 'Ears' }).waitFor()
    await page.waitForTimeout(600)
  }

  async function speak(words: string): Promise<void> {
    await page.evaluate((samples) => sidecallMicrophone.say(samples), packedSamples(await operator(words, PACE)))
  }

  async function say(words: string): Promise<void> {
    await listening()
    await speak(words)
  }

  async function practise(words: string): Promise<void> {
    await page.locator('.card').click()
    await page.getByLabel('Who is doing it?').fill('Ada')
    await page.getByRole('button', { name: 'Back', exact: true }).click()
    await page.getByRole('button', { name: 'Practise your voice' }).click()
    await page.getByRole('button', { name: `Practise: ${words}` }).click()
    const paces = [1, 1.12, 1.25]
    for (const [index, pace] of paces.entries()) {
      await page.waitForFunction(() => sidecallMicrophone.isOpen())
      await page.waitForTimeout(1200)
      const sound = await operator(words, pace)
      await page.evaluate((samples) => sidecallMicrophone.say(samples), packedSamples(sound))
      await page
        .getByRole('listitem')
        .filter({ hasText: `Practise: ${words}` })
        .getByText(`${index + 1} of ${paces.length}`)
        .waitFor()
    }
    await page.getByRole('button', { name: 'Back', exact: true }).click()
  }

  async function start(): Promise<void> {
    await page.locator('.card').click()
    await page.getByRole('button', { name: 'Start', exact: true }).click()
    await page.locator('.call-area').waitFor()
  }

  async function sayUntil(isSo: () => Promise<boolean>, words = 'all done'): Promise<void> {
    for (let tries = 0; tries < MOST_TRIES; tries++) {
      await say(words)
      for (let waited = 0; waited < 20; waited++) {
        if (await isSo()) return
        await page.waitForTimeout(200)
      }
    }
    throw new Error(`Said "${words}" ${MOST_TRIES} times for nothing.`)
  }

  async function sayDone(step: string): Promise<void> {
    const called = page.locator('.call-text', { hasText: step })
    await called.waitFor()
    await sayUntil(async () => (await called.count()) === 0)
  }

  async function byVoice(): Promise<readonly string[]> {
    return (await server.events())
      .filter(({ via, type }) => via === 'voice' && type !== 'lane-called')
      .map(({ type }) => type)
  }

  async function heard(): Promise<readonly string[]> {
    await page.getByRole('button', { name: 'Other …' }).click()
    await page.getByRole('button', { name: 'What was said' }).click()
    const words = await page.locator('.transcript li.operator span').allTextContents()
    await page.keyboard.press('Escape')
    return words
  }

  return {
    page: () => page,
    server: () => server,
    open,
    practise,
    start,
    listening,
    speak,
    say,
    sayUntil,
    sayDone,
    byVoice,
    heard
  }
}
