/** How large the headline of every shipped step stands on the screen, in minutes of arc at the distance it is read from. */
import { readdirSync, readFileSync } from 'node:fs'
import { join, resolve } from 'node:path'
import type { Browser } from 'playwright-core'
import { LANGUAGES, type Language } from '../../../src/core/talk/languages.ts'
import { aProcedure } from '../../helpers/a-procedure.ts'
import { kitchenServer } from '../../helpers/kitchen-server.ts'
import { percentile, type Figure } from '../report.ts'
import { launchChromium } from '../../browser/launch.ts'

const FOLDER = resolve(import.meta.dirname, '../../../procedures')
/** Of most tablets, and of a telephone; capitals are 0.7 em high in common sans-serif faces. From memory. */
const [TABLET_MM, TELEPHONE_MM, CAPITALS] = [0.17, 0.16, 0.7]
/** ISO 9241-3: 20 to 22 minutes of arc are preferred, 16 are the least. */
const PREFERRED = 20

const PLACES = [
  { width: 1280, height: 800, distance: 'far', mm: 2000, pixel: TABLET_MM },
  { width: 1280, height: 800, distance: 'near', mm: 1500, pixel: TABLET_MM },
  { width: 1024, height: 768, distance: 'near', mm: 1500, pixel: TABLET_MM },
  { width: 800, height: 1280, distance: 'far', mm: 2000, pixel: TABLET_MM },
  { width: 390, height: 844, distance: 'hand', mm: 600, pixel: TELEPHONE_MM }
] as const

export async function benchHeadlines(): Promise<readonly Figure[]> {
  const texts = readdirSync(FOLDER)
    .filter((name) => name.endsWith('.yaml'))
    .map((name) => readFileSync(join(FOLDER, name), 'utf8'))
  const steps = texts.flatMap((text) => aProcedure(text).stages.flatMap((stage) => stage.steps.map(({ say }) => say)))
  const server = await kitchenServer(texts)
  const browser = await launchChromium()
  const figures: Figure[] = []
  try {
    for (const place of PLACES)
      for (const language of LANGUAGES) {
        const says = steps.map((say) => say[language] ?? '').filter((say) => say !== '')
        const arcs = (await sizesOf(browser, server.url, place, says)).map(
          (pixels) => (Math.atan((pixels * CAPITALS * place.pixel) / place.mm) * 60 * 180) / Math.PI
        )
        figures.push(...figuresOf(place, language, arcs))
      }
    return figures
  } finally {
    await browser.close()
    await server.end()
  }
}

/** CSS pixels of the headline, each fitted as the page fits it, in the room that a call without hints has. */
async function sizesOf(
  browser: Browser,
  url: string,
  { width, height, distance }: (typeof PLACES)[number],
  says: readonly string[]
): Promise<readonly number[]> {
  const context = await browser.newContext({ viewport: { width, height } })
  const page = await context.newPage()
  await page.addInitScript('globalThis.__name = (named) => named')
  await page.goto(url)
  await page.locator('.card').first().waitFor()
  await page.locator('summary').click()
  await page.locator(`input[value=${distance}]`).check()
  await page.locator('.card', { hasText: 'Closing' }).first().click()
  await page.getByLabel('Who is doing it?').fill('Ada')
  await page.getByRole('button', { name: 'Start', exact: true }).click()
  await page.locator('[data-call=step]').waitFor()
  // The plan comes a little later, and with it the room that it takes.
  await page.locator('.ready-by').waitFor()
  const sizes = await page.evaluate(async (all) => {
    const text = document.querySelector<HTMLElement>('.call-text')
    const headline = text?.querySelector<HTMLElement>('.headline')
    if (!text || !headline) throw new Error('There is no headline.')
    for (const more of text.querySelectorAll('.hint, .question')) more.remove()
    return all.map((say) => {
      headline.textContent = say
      for (let share = 32; share >= 8; share -= 1) {
        text.style.setProperty('--fit', String(share / 32))
        if (text.scrollHeight <= text.clientHeight && text.scrollWidth <= text.clientWidth) break
      }
      return parseFloat(getComputedStyle(headline).fontSize)
    })
  }, says)
  await context.close()
  return sizes
}

function figuresOf(
  { width, height, distance }: (typeof PLACES)[number],
  language: Language,
  arcs: readonly number[]
): readonly Figure[] {
  const where = `${width} x ${height}, ${distance}, ${language}`
  const how = `${arcs.length} steps of the shipped procedures, capitals, before anything was done that can be taken back`
  return [
    {
      name: `headline of ${PREFERRED}' or more: ${where}`,
      value: (100 * arcs.filter((arc) => arc >= PREFERRED - 0.1).length) / arcs.length,
      unit: '%',
      atMost: null,
      how
    },
    { name: `smallest headline: ${where}`, value: percentile(arcs, 0), unit: "'", atMost: null, atLeast: 16, how }
  ]
}
