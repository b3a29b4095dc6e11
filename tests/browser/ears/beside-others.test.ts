/** Our own ears beside others: a colleague who talks all the time, and an attention word where it is loud. */
import { expect, test } from 'vitest'
import { OTHER_WORDS } from '../../ears/recipe/other-words.ts'
import { spokenBy } from '../../helpers/spoken-by.ts'
import { packedSamples } from '../mixed-microphone.ts'
import { heardKitchen, MOST_TRIES, SHORT } from './heard-kitchen.ts'

/** A quarter of a second. */
const PAUSE = Array.from({ length: 4000 }, () => 0)
/** Phrases of one command: over other talk the one may be taken for the other, and nothing else comes of it. */
const SAY_AGAIN = ['say again', 'repeat']

const kitchen = heardKitchen()

test('a colleague who talks all the time gives no command, and the operator is heard again after that', async () => {
  const colleague = await spokenBy('kal')
  const talk: number[] = []
  for (const words of OTHER_WORDS) talk.push(...(await colleague(words)), ...PAUSE)
  await kitchen.open(SHORT)
  const page = kitchen.page()
  await kitchen.practise('all done')
  await kitchen.start()
  await page.evaluate((samples) => sidecallMicrophone.beside(samples), packedSamples(Float32Array.from(talk), 0.4))
  for (let turn = 0; turn < 4; turn++) {
    await page.waitForTimeout(8000)
    await kitchen.say('say again')
  }
  const words = await kitchen.heard()
  expect(await kitchen.byVoice()).toEqual([])
  // What was said over the colleague may be missed, or asked about; it is not taken for another command.
  expect(words.filter((one) => !SAY_AGAIN.includes(one))).toEqual([])
  await page.evaluate(() => sidecallMicrophone.hush())
  await page.waitForTimeout(4000)
  await kitchen.sayUntil(async () => (await page.locator('.call-text', { hasText: 'Wipe the right door' }).count()) > 0)
  await expect.poll(kitchen.byVoice).toEqual(['step-done'])
})

test('in a loud place nothing counts before the attention word, and the strip says so', async () => {
  await kitchen.open(SHORT)
  const page = kitchen.page()
  for (const words of ['hello sidecall', 'all done']) await kitchen.practise(words)
  await page.getByText('Settings of this device').click()
  await page.getByText('only after "hello sidecall": for loud places').click()
  await kitchen.start()
  const waiting = page.locator('.guard.waiting', { hasText: 'waits for "hello sidecall"' })
  const attends = async () => (await page.locator('.guard.good', { hasText: 'Ears' }).count()) > 0
  // The touch on Start opened the ears for some seconds.
  await waiting.waitFor()
  await kitchen.speak('all done')
  await page.waitForTimeout(3000)
  expect(await kitchen.byVoice()).toEqual([])
  for (let tries = 0; tries < MOST_TRIES && !(await attends()); tries++) {
    await waiting.waitFor()
    await kitchen.speak('hello sidecall')
    await page.waitForTimeout(1500)
  }
  await kitchen.sayUntil(async () => (await page.locator('.call-text', { hasText: 'Wipe the right door' }).count()) > 0)
  await expect.poll(kitchen.byVoice).toEqual(['step-done'])
}, 240_000)
