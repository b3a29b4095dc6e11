/** Goes through every screen and state of the page once, for tests that look at each of them. */
import type { Page } from 'playwright-core'
import { withHead } from '../helpers/a-procedure.ts'

/** As much text as the rules of writing allow. */
export const WORDY = withHead(
  `  - stage: Wash
    steps:
      - {step: lay, say: Lay all these parts on the clean rack so that none touch., hands: 10 s}
      - step: mix
        say: Mix the cleaner in the clean pail.
        hands: 30 s
        cautions:
          - {signal: warning, hazard: Cleaner mixed with another chemical., consequence: Bleach with acid or ammonia gives off a gas that can kill., avoid: Use one product in a rinsed pail and never add another.}
          - {signal: caution, hazard: Cleaner and hot water., consequence: They can burn skin and eyes., avoid: Keep gloves and goggles on. Rinse a splash with much water at once.}
        confirm: hands are clear of the beater
      - step: warm
        say: Measure the temperature of the cleaner in the pail.
        hands: 20 s
        read:
          question: How many degrees is the cleaner in the clean pail?
          reading: temperature
          unit: C
          at least: 43
          at most: 49
          source: Common practice. The product label comes first, then the maker's manual and local code.
          if not: ["Add hot or cool water, keep the dose by the label, and take a new reading.", Throw it away and mix a fresh pail by the product label., Call the supervisor before you go on.]
      - {step: scrub, on: bench, say: Scrub the tray., hands: 1 min}`
)

export interface Walk {
  /** The page's timers run by so many ms; nobody waits for them. */
  pass(ms: number): Promise<void>
  /** Makes choices in the open settings of the device. */
  set(page: Page): Promise<void>
}

/** What answers the call. */
export const answer = (page: Page) => page.locator('.actions > .press.main').first()

const PANELS = ['A problem', 'Type words', 'Who is at work', 'What was said', 'Keys', 'Ears and voice', 'End early']

/** `seen` is called in each state, by its name. Ends after a reload in the middle of the run. */
export async function walkScreens(
  page: Page,
  { pass, set }: Walk,
  seen: (state: string) => Promise<void>
): Promise<void> {
  const way = async (name: string) => {
    await page.getByRole('button', { name: 'Other …' }).click()
    await page.locator('.ways').getByRole('button', { name, exact: true }).click()
  }
  await page.locator('.card').first().waitFor()
  await page.locator('summary').click()
  await set(page)
  await seen('home')
  for (const name of [
    'Records, and what is due',
    'Practise your voice',
    'Mix a batch, or judge a reading',
    'People and devices'
  ]) {
    await page.getByRole('button', { name }).click()
    await page.getByRole('button', { name: 'Back', exact: true }).waitFor()
    await seen(name)
    await page.getByRole('button', { name: 'Back', exact: true }).click()
    await page.locator('.card').first().waitFor()
  }
  await page.locator('.card').first().click()
  await page.getByLabel('Who is doing it?').fill('Ada')
  await seen('gather')
  await page.getByRole('button', { name: 'Start', exact: true }).click()
  await page.locator('[data-call=step]').waitFor()
  await seen('step')

  await page.getByRole('button', { name: 'Other …' }).click()
  await page.locator('.ways').waitFor()
  await seen('ways')
  await page.locator('.ways').getByRole('button', { name: 'Close' }).click()
  for (const name of PANELS) {
    await way(name)
    await seen(name)
    await page.locator('.panel > .press').click()
  }
  await way('Wipe the screen')
  await seen('wipe')
  await page.keyboard.press('Escape')
  await page.locator('.wipe').waitFor({ state: 'detached' })

  await pass(600)
  await answer(page).click()
  await page.locator('[data-call=caution]').waitFor()
  await seen('caution')
  await pass(600)
  await answer(page).click()
  await page.locator('.hold').waitFor()
  await page.locator('.undo').waitFor()
  await seen('hold')
  await pass(600)
  await page.locator('.hold').hover()
  await page.mouse.down()
  await pass(900)
  await page.mouse.up()
  await page.getByRole('button', { name: 'Enter the number' }).waitFor()
  await seen('reading')
  await pass(600)
  await answer(page).click()
  for (const digit of ['2', '0'])
    await page.locator('.number-keys').getByRole('button', { name: digit, exact: true }).click()
  await seen('number')
  await page.getByRole('button', { name: 'Record' }).click()
  await page.locator('[data-call=stopped]').waitFor()
  await seen('stopped')
  await page.reload()
  await page.locator('.needs-tap').waitFor()
  await seen('after a reload')
}
