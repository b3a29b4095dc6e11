/** What our own ears cost the page itself: tasks that keep it from answering, while they start and while a run goes on. */
import type { Browser, Page } from 'playwright-core'
import { mixMicrophone, packedSamples } from '../../browser/mixed-microphone.ts'
import { withHead } from '../../helpers/a-procedure.ts'
import { engineSpeech } from '../../helpers/engine-speech.ts'
import { kitchenServer } from '../../helpers/kitchen-server.ts'
import { spokenBy } from '../../helpers/spoken-by.ts'
import type { Figure } from '../report.ts'

const COMMANDS = 8
const STEPS = withHead(`  - stage: A
    steps:
${Array.from({ length: COMMANDS + 1 }, (_, index) => `      - {step: s${index}, on: left, say: Wipe door ${index + 1} of the left side., hands: 5 s}`).join('\n')}
      - {step: last, on: right, say: Dry it., hands: 5 s}`)

declare global {
  // Only inside the page.
  var sidecallLongTasks: number[]
}

/** Long Tasks API: a task of more than 50 ms on the page's own thread. */
function noteLongTasks(): void {
  const noted: number[] = []
  Object.defineProperty(window, 'sidecallLongTasks', { value: noted })
  new PerformanceObserver((list) => noted.push(...list.getEntries().map(({ duration }) => duration))).observe({
    type: 'longtask'
  })
}

export async function benchOwnEars(browser: Browser): Promise<readonly Figure[]> {
  const server = await kitchenServer([STEPS], undefined, undefined, engineSpeech)
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 }, permissions: ['microphone'] })
  const page = await context.newPage()
  await mixMicrophone(page)
  await page.addInitScript(noteLongTasks)
  await page.goto(server.url)
  await page.locator('.card').click()
  await page.getByLabel('Who is doing it?').fill('Ada')
  await taken(page)
  await page.getByRole('button', { name: 'Start', exact: true }).click()
  const listening = page.locator('.guard.good', { hasText: 'Ears' })
  await listening.waitFor()
  const starting = await taken(page)
  const words = packedSamples(await (await spokenBy('awb'))('say again'))
  for (let command = 0; command < COMMANDS; command += 1) {
    await listening.waitFor()
    await page.waitForTimeout(1000)
    await page.evaluate((samples) => sidecallMicrophone.say(samples), words)
    // Heard or not, the work goes on.
    await page.waitForTimeout(2000)
    await page.keyboard.press('Space')
  }
  const working = await taken(page)
  await context.close()
  await server.end()
  const how = `not slowed down; ${COMMANDS} commands said, ${COMMANDS} steps by key, all spoken by the engine in its worker`
  return [
    ...figures('while our own ears start', starting, 'from the touch on Start to open ears, models from the server'),
    ...figures('in a run with our own ears on', working, how)
  ]
}

function figures(when: string, tasks: readonly number[], how: string): readonly Figure[] {
  const longest = Math.max(0, ...tasks)
  return [
    { name: `long tasks ${when}`, value: tasks.length, unit: 'tasks', atMost: null, how },
    { name: `longest task ${when}`, value: longest, unit: 'ms', atMost: null, how: '0: none over 50 ms' }
  ]
}

async function taken(page: Page): Promise<readonly number[]> {
  return await page.evaluate(() => sidecallLongTasks.splice(0))
}
