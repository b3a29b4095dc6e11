/**
 * Our own ears in a real browser in the middle of work: the microphone hears the app's own voice and alarms, a colleague
 * who talks, and is pulled out. The voices are synthetic, and so is the room.
 */
import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest'
import { OTHER_WORDS } from '../ears/recipe/other-words.ts'
import { withHead } from '../helpers/a-procedure.ts'
import { engineSpeech } from '../helpers/engine-speech.ts'
import { kitchenServer, type KitchenServer } from '../helpers/kitchen-server.ts'
import { spokenBy, type Person } from '../helpers/spoken-by.ts'
import { mixMicrophone, packedSamples } from './mixed-microphone.ts'
import { launchChromium } from './launch.ts'

const SHORT = withHead(`  - stage: Clean
    steps:
      - step: fill
        on: left
        say: Hold the left lid and put the pail on.
        hands: 10 s
        wait: {for: soak, at least: 12 s, source: Common practice}
      - {step: wipe, on: right, say: Wipe the right door., hands: 10 s}
      - {step: rinse, on: left, say: Rinse the left hopper., hands: 10 s}
      - {step: close, on: whole machine, say: Close the cover., hands: 10 s}`)

/** A quarter of a second. */
const PAUSE = Array.from({ length: 4000 }, () => 0)
const MOST_TRIES = 6

const READING = withHead(`  - stage: Sanitize
    steps:
      - step: strength
        on: left
        say: Dip a strip.
        hands: 10 s
        read: {question: What does it read?, reading: strength, unit: ppm, at least: 100, at most: 200, source: Product label, if not: [Mix it anew.]}
      - {step: close, on: whole machine, say: Close the cover., hands: 10 s}`)

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

/** The page listens, and has for a moment: the ears have to know the room. */
async function listening(): Promise<void> {
  await page.locator('.guard.good', { hasText: 'Ears' }).waitFor()
  await page.waitForTimeout(600)
}

async function say(words: string): Promise<void> {
  await listening()
  await page.evaluate((samples) => sidecallMicrophone.say(samples), packedSamples(await operator(words, 1.18)))
}

/** Under the operator's name, at three paces, none of them the one of later. */
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

/** As an operator does: again, when it was not heard. On a busy machine sound is lost. */
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

/** What the operator's voice did, as the server knows it. Where it called the hands to follows from that. */
async function byVoice(): Promise<readonly string[]> {
  const [run] = await server.records().runs(1)
  const events = run ? (await server.records().eventsAfter(run.runId, 0)).events : []
  return events.filter(({ via, type }) => via === 'voice' && type !== 'lane-called').map(({ type }) => type)
}

/** All that was heard so far, in words, whether it meant something or not. */
async function heard(): Promise<readonly string[]> {
  await page.getByRole('button', { name: 'Other …' }).click()
  await page.getByRole('button', { name: 'What was said' }).click()
  const words = await page.locator('.transcript li.operator span').allTextContents()
  await page.keyboard.press('Escape')
  return words
}

test('a whole run: the microphone hears every word and alarm of the app, and only the operator is obeyed', async () => {
  await open(SHORT)
  await practise('all done')
  await start()
  await sayDone('Hold the left lid')
  await sayDone('Wipe the right door')
  // The wait is over: the alarm rings and speaks into the microphone until somebody answers.
  await page.locator('.alarm').waitFor()
  await page.waitForTimeout(15_000)
  await expect.poll(byVoice).toEqual(['step-done', 'step-done'])
  await sayUntil(async () => (await page.locator('.alarm').count()) === 0)
  await sayDone('Rinse the left hopper')
  const words = await heard()
  await sayDone('Close the cover')
  await page.locator('.finished').waitFor()
  expect(words.filter((one) => one !== 'all done')).toEqual([])
  const all = ['step-done', 'step-done', 'wait-acknowledged', 'step-done', 'step-done', 'run-finished']
  await expect.poll(byVoice).toEqual(all)
  // It did hear the app, about as loudly as the operator.
  expect(await page.evaluate(() => sidecallMicrophone.ownPeak)).toBeGreaterThan(0.2)
})

test('a colleague who talks all the time gives no command, and the operator is heard again after that', async () => {
  const colleague = await spokenBy('kal')
  const talk: number[] = []
  for (const words of OTHER_WORDS) talk.push(...(await colleague(words)), ...PAUSE)
  await open(SHORT)
  await practise('all done')
  await start()
  await page.evaluate((samples) => sidecallMicrophone.beside(samples), packedSamples(Float32Array.from(talk), 0.4))
  for (let turn = 0; turn < 4; turn++) {
    await page.waitForTimeout(8000)
    await say('say again')
  }
  const words = await heard()
  expect(await byVoice()).toEqual([])
  // What was said over the colleague may be missed, or asked about; it is not taken for another command.
  expect(words.filter((one) => one !== 'say again')).toEqual([])
  await page.evaluate(() => sidecallMicrophone.hush())
  await page.waitForTimeout(4000)
  await sayUntil(async () => (await page.locator('.call-text', { hasText: 'Wipe the right door' }).count()) > 0)
  await expect.poll(byVoice).toEqual(['step-done'])
})

test('a microphone pulled out shows at once, and listening goes on by itself when it is back', async () => {
  await open(SHORT)
  await practise('all done')
  await start()
  await listening()
  await page.evaluate(() => sidecallMicrophone.unplug())
  await page.locator('.guard.dead', { hasText: 'no microphone is found' }).waitFor({ timeout: 1000 })
  // It stays so for as long as there is none.
  await page.waitForTimeout(6000)
  expect(await page.locator('.guard.dead', { hasText: 'no microphone is found' }).count()).toBe(1)
  await page.evaluate(() => sidecallMicrophone.plug())
  await page.locator('.guard.good', { hasText: 'Ears' }).waitFor({ timeout: 3000 })
  await sayDone('Hold the left lid')
  await expect.poll(byVoice).toEqual(['step-done'])
})

test('a reading is told in steps, by voice alone, and counts once it was read back', async () => {
  await open(READING)
  for (const words of ['go higher', 'that is it', 'yes']) await practise(words)
  await start()
  await page.getByText('I begin at 150 ppm.').first().waitFor()
  const shown = (text: string) => async () => (await page.locator('.call-text', { hasText: text }).count()) > 0
  await sayUntil(shown('160 ppm.'), 'go higher')
  await sayUntil(shown('160 ppm. Is that so?'), 'that is it')
  await sayUntil(shown('Close the cover.'), 'yes')
  await expect.poll(byVoice).toEqual(['check-answered'])
  const [run] = await server.records().runs(1)
  const { events } = await server.records().eventsAfter(run?.runId ?? '', 0)
  expect(events.find(({ type }) => type === 'check-answered')).toMatchObject({
    answer: { kind: 'reading', value: 160, unit: '[ppm]' }
  })
}, 240_000)

test('in a loud place nothing counts before the attention word, and the strip says so', async () => {
  await open(SHORT)
  for (const words of ['hello sidecall', 'all done']) await practise(words)
  await page.getByText('Settings of this device').click()
  await page.getByText('only after "hello sidecall": for loud places').click()
  await start()
  const waiting = page.locator('.guard.waiting', { hasText: 'waits for "hello sidecall"' })
  const attends = async () => (await page.locator('.guard.good', { hasText: 'Ears' }).count()) > 0
  // The touch on Start opened the ears for some seconds.
  await waiting.waitFor()
  await page.evaluate((samples) => sidecallMicrophone.say(samples), packedSamples(await operator('all done', 1.18)))
  await page.waitForTimeout(3000)
  expect(await byVoice()).toEqual([])
  for (let tries = 0; tries < MOST_TRIES && !(await attends()); tries++) {
    await waiting.waitFor()
    await page.evaluate(
      (samples) => sidecallMicrophone.say(samples),
      packedSamples(await operator('hello sidecall', 1.18))
    )
    await page.waitForTimeout(1500)
  }
  await sayUntil(async () => (await page.locator('.call-text', { hasText: 'Wipe the right door' }).count()) > 0)
  await expect.poll(byVoice).toEqual(['step-done'])
}, 240_000)
