/** Our own ears and their microphone: pulled out, and asked for a reading. */
import { expect, test } from 'vitest'
import { withHead } from '../../helpers/a-procedure.ts'
import { heardKitchen, SHORT } from './heard-kitchen.ts'

const READING = withHead(`  - stage: Sanitize
    steps:
      - step: strength
        on: left
        say: Dip a strip.
        hands: 10 s
        read: {question: What does it read?, reading: strength, unit: ppm, at least: 100, at most: 200, source: Product label, if not: [Mix it anew.]}
      - {step: close, on: whole machine, say: Close the cover., hands: 10 s}`)

const kitchen = heardKitchen()

test('a microphone pulled out shows at once, and listening goes on by itself when it is back', async () => {
  await kitchen.open(SHORT)
  const page = kitchen.page()
  await kitchen.practise('all done')
  await kitchen.start()
  await kitchen.listening()
  await page.evaluate(() => sidecallMicrophone.unplug())
  await page.locator('.guard.dead', { hasText: 'no microphone is found' }).waitFor({ timeout: 1000 })
  // It stays so for as long as there is none.
  await page.waitForTimeout(6000)
  expect(await page.locator('.guard.dead', { hasText: 'no microphone is found' }).count()).toBe(1)
  await page.evaluate(() => sidecallMicrophone.plug())
  await page.locator('.guard.good', { hasText: 'Ears' }).waitFor({ timeout: 3000 })
  await kitchen.sayDone('Hold the left lid')
  await expect.poll(kitchen.byVoice).toEqual(['step-done'])
})

test('a reading is told in steps, by voice alone, and counts once it was read back', async () => {
  await kitchen.open(READING)
  const page = kitchen.page()
  for (const words of ['go higher', 'that is it', 'yes']) await kitchen.practise(words)
  await kitchen.start()
  await page.getByText('I begin at 150 ppm.').first().waitFor()
  const shown = (text: string) => async () => (await page.locator('.call-text', { hasText: text }).count()) > 0
  await kitchen.sayUntil(shown('160 ppm.'), 'go higher')
  await kitchen.sayUntil(shown('160 ppm. Is that so?'), 'that is it')
  await kitchen.sayUntil(shown('Close the cover.'), 'yes')
  await expect.poll(kitchen.byVoice).toEqual(['check-answered'])
  const events = await kitchen.server().events()
  expect(events.find(({ type }) => type === 'check-answered')).toMatchObject({
    answer: { kind: 'reading', value: 160, unit: '[ppm]' }
  })
}, 240_000)
