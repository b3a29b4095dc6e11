/** The page at the sizes it is made for: nothing off the screen, nothing cut, targets a gloved hand can hit. */
import type { Page } from 'playwright-core'
import { describe, expect, test } from 'vitest'
import { faultsInPage } from './page-faults.ts'
import { shopScreens } from './shop-screens.ts'
import { answer, walkScreens, WORDY } from './walk-screens.ts'

const SIZES = [
  { width: 1280, height: 800, distance: 'far' },
  { width: 1280, height: 800, distance: 'near' },
  { width: 1024, height: 768, distance: 'near' },
  { width: 800, height: 1280, distance: 'near' },
  { width: 390, height: 844, distance: 'hand' }
] as const

const shop = shopScreens(WORDY)
let page: Page

async function look(): Promise<number> {
  await pass(150)
  // Sizes are fitted just before a frame is painted; a look between the change and that frame sees what nobody does.
  await expect.poll(async () => (await page.evaluate(faultsInPage)).faults, { timeout: 3000 }).toEqual([])
  return (await page.evaluate(faultsInPage)).headline
}

const pass = (ms: number) => shop.pass(page, ms)

describe.each(SIZES)('$width x $height, read from $distance', ({ width, height, distance }) => {
  test('every screen of a run fits, and its targets can be hit', async () => {
    page = await shop.open({ viewport: { width, height } })
    await walkScreens(
      page,
      { pass, set: (look) => look.locator(`input[value=${distance}]`).check() },
      async (state) => {
        const headline = await look()
        // 2 m x tan(16') = 9.3 mm of capitals, the least of ISO 9241-3; 0.7 em, 0.17 mm a pixel: 78 px. Far is 1280 x 800 only.
        if (distance === 'far' && state === 'step') expect(headline).toBeGreaterThanOrEqual(78)
      }
    )
    await page.context().close()
  })
})

test('a hold that is let go too early, or wanders, confirms nothing', async () => {
  page = await shop.open({ viewport: { width: 1280, height: 800 } })
  await page.locator('.card').first().click()
  await page.getByLabel('Who is doing it?').fill('Ada')
  await page.getByRole('button', { name: 'Start', exact: true }).click()
  await page.locator('[data-call=step]').waitFor()
  await pass(600)
  await answer(page).click()
  await page.locator('[data-call=caution]').waitFor()
  await pass(600)
  await answer(page).click()
  const hold = page.locator('.hold')
  await hold.hover()
  await pass(600)

  await page.mouse.down()
  await pass(500)
  await page.mouse.up()
  await pass(600)
  expect(await hold.count()).toBe(1)

  const box = await hold.boundingBox()
  if (!box) throw new Error('no hold button')
  await page.mouse.move(box.x + 40, box.y + 40)
  await page.mouse.down()
  await pass(200)
  await page.mouse.move(box.x + 140, box.y + 40)
  await pass(1000)
  await page.mouse.up()
  expect(await hold.count()).toBe(1)

  await page.mouse.down()
  await pass(900)
  await page.mouse.up()
  await page.getByRole('button', { name: 'Enter the number' }).waitFor()
  await page.context().close()
})
