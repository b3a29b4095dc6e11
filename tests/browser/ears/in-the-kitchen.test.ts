/** Our own ears in the middle of work, with the app's own voice and alarms in the microphone. */
import { expect, test } from 'vitest'
import { heardKitchen, SHORT } from './heard-kitchen.ts'

const kitchen = heardKitchen()

test('a whole run: the microphone hears every word and alarm of the app, and only the operator is obeyed', async () => {
  await kitchen.open(SHORT)
  const page = kitchen.page()
  await kitchen.practise('all done')
  await kitchen.start()
  await kitchen.sayDone('Hold the left lid')
  await kitchen.sayDone('Wipe the right door')
  // The wait is over: the alarm rings and speaks into the microphone until somebody answers.
  await page.locator('.alarm').waitFor()
  await page.waitForTimeout(15_000)
  await expect.poll(kitchen.byVoice).toEqual(['step-done', 'step-done'])
  await kitchen.sayUntil(async () => (await page.locator('.alarm').count()) === 0)
  await kitchen.sayDone('Rinse the left hopper')
  const words = await kitchen.heard()
  await kitchen.sayDone('Close the cover')
  await page.locator('.finished').waitFor()
  expect(words.filter((one) => one !== 'all done')).toEqual([])
  const all = ['step-done', 'step-done', 'wait-acknowledged', 'step-done', 'step-done', 'run-finished']
  await expect.poll(kitchen.byVoice).toEqual(all)
  // It did hear the app, about as loudly as the operator.
  expect(await page.evaluate(() => sidecallMicrophone.ownPeak)).toBeGreaterThan(0.2)
})
