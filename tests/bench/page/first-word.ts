/** From an operator's command to the first sound of the answer, with the clips on the device, on a processor four times slower. */
import type { Browser } from 'playwright-core'
import { tapSound } from '../../browser/sound-tap.ts'
import { withHead } from '../../helpers/a-procedure.ts'
import { kitchenServer } from '../../helpers/kitchen-server.ts'
import { tonedSpeech } from '../../helpers/toned-speech.ts'
import { median, percentile, type Figure } from '../report.ts'
import { begin, freshPage, gather, slowDown } from './operator.ts'

const COMMANDS = 20
const SLOWER = 4
const BUDGET_MS = 300
/** The sound tap takes a sound for a new one after a second of silence. */
const SILENCE_MS = 1300

const STEPS = withHead(`  - stage: A
    steps:
${Array.from({ length: 2 * COMMANDS }, (_, index) => `      - {step: s${index}, on: left, say: Wipe door ${index + 1} of the left side., hands: 5 s}`).join('\n')}
      - {step: last, on: right, say: Dry it., hands: 5 s}`)

export async function benchFirstWord(browser: Browser): Promise<readonly Figure[]> {
  const server = await kitchenServer([STEPS], undefined, undefined, tonedSpeech)
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 } })
  const page = await freshPage(context)
  await tapSound(page)
  await page.goto(server.url)
  await gather(page, 'Test')
  await page.getByText('The whole voice is on this device.').waitFor()
  await begin(page)
  await page.waitForFunction(() => sidecallSound.begun.length > 0)
  await slowDown(page, SLOWER)
  const took: number[] = []
  for (let command = 0; command < COMMANDS; command += 1) {
    await page.waitForFunction(() => sidecallVoice.listening())
    await page.waitForTimeout(SILENCE_MS)
    const { at, known } = await page.evaluate(() => {
      const known = sidecallSound.begun.length
      const at = performance.now()
      sidecallVoice.hear('all done')
      return { at, known }
    })
    await page.waitForFunction((count) => sidecallSound.begun.length > count, known)
    took.push((await page.evaluate((count) => sidecallSound.begun[count]?.at ?? Infinity, known)) - at)
  }
  await context.close()
  await server.end()
  const how = `${COMMANDS} commands, ${SLOWER}x slower, cached clips; final words of the recogniser to the first sample sent out`
  return [
    { name: 'command to first word', value: median(took), unit: 'ms', atMost: BUDGET_MS, how: `median of ${how}` },
    { name: 'command to first word, p95', value: percentile(took, 95), unit: 'ms', atMost: null, how }
  ]
}
