/** Opens the page and begins a run on it by touch. */
import type { BrowserContext, Page } from 'playwright-core'
import { installScriptedVoice } from '../../browser/scripted-voice.ts'
import { installMarks } from './marks.ts'

/** A page with the bench's ears in it, not yet on its way anywhere. */
export async function freshPage(context: BrowserContext): Promise<Page> {
  const page = await context.newPage()
  // The transpiler may name functions through this helper, which a page does not have.
  await page.addInitScript('globalThis.__name = (named) => named')
  await page.addInitScript(installScriptedVoice)
  await page.addInitScript(installMarks)
  return page
}

/** A tablet's processor is a fraction of this machine's; workers and the audio thread are not slowed down. */
export async function slowDown(page: Page, times: number): Promise<void> {
  const session = await page.context().newCDPSession(page)
  await session.send('Emulation.setCPUThrottlingRate', { rate: times })
}

/** As far as the Start button. */
export async function gather(page: Page, title: string): Promise<void> {
  await page.locator('.card', { hasText: title }).first().click()
  await page.getByLabel('Who is doing it?').fill('Ada')
}

export async function begin(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Start', exact: true }).click()
  await page.locator('.call-area[data-call]').waitFor()
}

/** A call this young takes no touch; a little more than the page asks for. */
export async function settle(page: Page): Promise<void> {
  await page.waitForTimeout(600)
}

export function mainKey(page: Page) {
  return page.locator('.actions > .press.main').first()
}
