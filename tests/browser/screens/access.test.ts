/** Every screen and state judged by axe-core (WCAG 2.2 A and AA rules), in each choice of colours; and what it cannot see. */
import type { Page } from 'playwright-core'
import { describe, expect, test } from 'vitest'
import { violations } from './axe.ts'
import { shopScreens } from './shop-screens.ts'
import { walkScreens, WORDY } from './walk-screens.ts'

const LOOKS = [
  { look: 'light', colorScheme: 'light' },
  { look: 'dark', colorScheme: 'light' },
  { look: 'strong', colorScheme: 'light' },
  { look: 'strong', colorScheme: 'dark' }
] as const

const shop = shopScreens(WORDY)

function openPage(viewport: { width: number; height: number }, colorScheme: 'light' | 'dark' = 'light'): Promise<Page> {
  // The judge is a script that our own content security policy rightly refuses.
  return shop.open({ viewport, colorScheme, bypassCSP: true })
}

function walkOf(page: Page, set: (page: Page) => Promise<void>) {
  return { pass: (ms: number) => shop.pass(page, ms), set }
}

describe.each(LOOKS)('colours: $look on a $colorScheme device', ({ look, colorScheme }) => {
  test('axe finds nothing on any screen, and the lane with the hands stands out without colour', async () => {
    const page = await openPage({ width: 1280, height: 800 }, colorScheme)
    const found: string[] = []
    const walk = walkOf(page, (settings) => settings.locator(`input[value=${look}]`).check())
    await walkScreens(page, walk, async (state) => {
      found.push(...(await violations(page)).map((one) => `${state}: ${one}`))
      if (state === 'step') expect(await page.evaluate(contrastOfCalled)).toBeGreaterThanOrEqual(7)
    })
    expect(found).toEqual([])
    await page.context().close()
  })
})

/** Contrast (WCAG 2.2, 1.4.3) between the lane that is called and the page, from their luminances: no hue is in it. */
function contrastOfCalled(): number {
  const luminance = (element: Element): number => {
    const channels = getComputedStyle(element).backgroundColor.match(/[\d.]+/g) ?? []
    const [red = 0, green = 0, blue = 0] = channels.slice(0, 3).map((channel) => {
      const part = Number(channel) / 255
      return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4
    })
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue
  }
  const called = document.querySelector('.stave.called')
  if (!called) return 0
  const [dark = 0, light = 0] = [luminance(called), luminance(document.body)].sort((a, b) => a - b)
  return (light + 0.05) / (dark + 0.05)
}

test('at 400 % zoom everything can be reached by scrolling one way (WCAG 2.2, 1.4.10)', async () => {
  // 1280 x 800 at 400 %.
  const page = await openPage({ width: 320, height: 200 })
  const sideways: string[] = []
  await walkScreens(
    page,
    walkOf(page, async () => {}),
    async (state) => {
      const { wide, cut } = await page.evaluate(unreachable)
      if (wide) sideways.push(`${state} scrolls sideways`)
      sideways.push(...cut.map((one) => `${state}: ${one} cannot be reached`))
    }
  )
  expect(sideways).toEqual([])
  await page.context().close()
})

function unreachable(): { readonly wide: boolean; readonly cut: readonly string[] } {
  const cut: string[] = []
  for (const folded of document.querySelectorAll('details')) folded.open = true
  for (const element of document.querySelectorAll<HTMLElement>('button, input, h1, h2, .headline, .captions')) {
    element.scrollIntoView({ block: 'center' })
    const { top, bottom, left, right, width } = element.getBoundingClientRect()
    if (width === 0) continue
    const middle = (top + bottom) / 2
    if (middle < 0 || middle > innerHeight || right > innerWidth + 1 || left < -1)
      cut.push(`${element.tagName} ${element.className} "${(element.textContent ?? '').slice(0, 30)}"`)
  }
  return { wide: document.documentElement.scrollWidth > innerWidth, cut }
}

test('who wants less motion gets none that only decorates', async () => {
  const page = await openPage({ width: 1280, height: 800 })
  await page.emulateMedia({ reducedMotion: 'reduce' })
  await walkScreens(
    page,
    walkOf(page, async () => {}),
    async (state) => {
      const moving = await page.evaluate(() => document.getAnimations().map(({ id }) => id))
      expect({ state, moving }).toEqual({ state, moving: [] })
    }
  )
  await page.context().close()
})
