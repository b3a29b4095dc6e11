/** A whole run with one switch: no voice, no touch, no other key. */
import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { shopScreens } from './shop-screens.ts'
import { WORDY } from './walk-screens.ts'

const shop = shopScreens(WORDY)
let page: Page

const pass = (ms: number) => shop.pass(page, ms)

/** The switch, which sends a key that nobody knows but by being taught. */
async function press(ms = 100): Promise<void> {
  // A call this old takes what is meant for it.
  await pass(600)
  await pushDown(ms)
}

async function pushDown(ms: number): Promise<void> {
  await page.keyboard.down('b')
  await pass(ms)
  await page.keyboard.up('b')
  await pass(100)
}

/** Waits until the wanted button is offered, and takes it. */
async function takeOffered(name: string): Promise<void> {
  for (let turn = 0; turn < 200; turn += 1) {
    const [offered] = await page.locator('.offered').allTextContents()
    if (offered === name) return pushDown(100)
    await pass(200)
  }
  throw new Error(`${name} was never offered`)
}

/** Answers whatever stands there, with the switch alone. */
async function answer(): Promise<string> {
  const stands = (button: string) => page.locator('.actions').getByRole('button', { name: button }).first().isVisible()
  const kind = await page.locator('.call-area').getAttribute('data-call')
  const isOpen = await page.locator('.number-pad').isVisible()
  if (isOpen || (await stands('Enter the number'))) {
    if (!isOpen) await press()
    for (const name of ['4', '5', 'Record']) await takeOffered(name)
    await expect.poll(() => pass(100).then(() => page.locator('.number-pad').isVisible())).toBe(false)
    return 'number'
  }
  const held =
    kind === 'caution' ? 'caution' : (await stands('Yes')) ? 'yes' : (await stands('Hold down')) ? 'hold' : null
  await press(held === null ? 100 : 900)
  return held ?? 'done'
}

test('one switch, taught first, carries a run to its end and reaches everything else', async () => {
  page = await shop.open({ viewport: { width: 1280, height: 800 } })
  await page.locator('.card').first().waitFor()
  await page.locator('summary').click()
  for (const key of ['Escape', 'b']) {
    await page.getByRole('button', { name: 'Teach: Done, and held down: confirm' }).click()
    await page.getByText('Press the switch now').waitFor()
    await pass(100)
    await page.keyboard.press(key)
    await page.getByText('Press the switch now').waitFor({ state: 'detached' })
  }
  await page.getByText('KeyB').waitFor()
  await page.getByLabel('one only: held long, it is offered everything, 1 s each').check()
  await page.locator('.card').first().click()
  await page.getByLabel('Who is doing it?').fill('Ada')
  await page.getByRole('button', { name: 'Start', exact: true }).click()
  await page.locator('[data-call=step]').waitFor()

  // Everything else, and out of it again.
  await press(2600)
  await takeOffered('Hold on')
  await page.locator('[data-call=paused]').waitFor()
  await press()
  await page.locator('[data-call=step]').waitFor()

  const asked: string[] = []
  for (let turn = 0; turn < 60; turn += 1) {
    await pass(300)
    if (await page.locator('.finished').isVisible()) break
    asked.push(await answer())
  }
  // Every kind of answer was needed; after an interruption the first one is asked for once more.
  expect(new Set(asked)).toEqual(new Set(['done', 'yes', 'caution', 'hold', 'number']))
  await page.locator('.finished h1').waitFor()
  await expect.poll(async () => (await shop.server().records().runs(5)).map(({ open }) => open)).toEqual([false])
  await page.context().close()
})
