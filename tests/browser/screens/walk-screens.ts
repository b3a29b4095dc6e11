/** Goes through every screen and state of the page once, for tests that look at each of them. */
import type { Page } from 'playwright-core'
import type { Texts } from '../../../src/screens/texts.ts'
import { withHead } from '../../helpers/a-procedure.ts'
import { textsEn } from '../../languages/english-texts.ts'

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
  /** What the page says, where it is not English. */
  readonly texts?: Texts
}

/** What answers the call. */
export const answer = (page: Page) => page.locator('.actions > .press.main').first()

/** `seen` is called in each state, by its name. Ends after a reload in the middle of the run. */
export async function walkScreens(
  page: Page,
  { pass, set, texts = textsEn }: Walk,
  seen: (state: string) => Promise<void>
): Promise<void> {
  const { screens, panels, choose, gather } = texts
  const { ways } = panels
  const button = (name: string) => page.getByRole('button', { name, exact: true })
  const way = async (name: string) => {
    await button(screens.act.other).click()
    await page.locator('.ways').getByRole('button', { name, exact: true }).click()
  }
  await page.locator('.card').first().waitFor()
  await page.locator('summary').click()
  await set(page)
  await seen('home')
  for (const room of ['records', 'practice', 'sums', 'people'] as const) {
    await button(choose[room]).click()
    await button(screens.back).waitFor()
    await page.locator('.day').waitFor({ state: 'detached' })
    await seen(room)
    await button(screens.back).click()
    await page.locator('.card').first().waitFor()
  }
  await walkWorkshop(page, texts, seen)
  await page.locator('.card').first().click()
  await page.getByLabel(gather.who).fill('Ada')
  await seen('gather')
  await button(gather.start).click()
  await page.locator('[data-call=step]').waitFor()
  await seen('step')

  await button(screens.act.other).click()
  await page.locator('.ways').waitFor()
  await seen('ways')
  await page.locator('.ways').getByRole('button', { name: screens.close, exact: true }).click()
  for (const panel of ['problem', 'words', 'crew', 'transcript', 'keys', 'guards', 'endEarly'] as const) {
    await way(ways[panel])
    await seen(panel)
    await page.locator('.panel > .press').click()
  }
  await way(ways.wipe)
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
  await button(screens.act.enterNumber).waitFor()
  await seen('reading')
  await pass(600)
  await answer(page).click()
  for (const digit of ['2', '0'])
    await page.locator('.number-keys').getByRole('button', { name: digit, exact: true }).click()
  await seen('number')
  await button(screens.act.record).click()
  await page.locator('[data-call=stopped]').waitFor()
  await seen('stopped')
  await page.reload()
  await page.locator('.needs-tap').waitFor()
  await seen('after a reload')
}

async function walkWorkshop(page: Page, { choose, screens, workshop }: Texts, seen: (state: string) => Promise<void>) {
  const button = (name: string) => page.getByRole('button', { name, exact: true })
  await button(choose.workshop).click()
  const draft = page.getByRole('button', { name: `${workshop.edit}: ` })
  await draft.waitFor()
  await seen('workshop')
  await draft.click()
  await page.locator('.draft-step').first().waitFor()
  for (const [tab, name] of Object.entries(workshop.tabs)) {
    await page.locator('.draft-tabs').getByRole('button', { name, exact: true }).click()
    await seen(`draft: ${tab}`)
  }
  await button(workshop.title).click()
  await draft.waitFor()
  await button(screens.back).click()
  await page.locator('.card').first().waitFor()
}
