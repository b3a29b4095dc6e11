/**
 * Chromium as a user has it, so that a tab behind another one is truly hidden: `visibilityState` says so and its timers
 * are held back. Playwright's own launch turns that off by its switches and by pretending that every page has the focus.
 */
import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { chromium, type BrowserContext, type Page } from 'playwright-core'

export interface HideableBrowser {
  /** The only context of such a browser: its tabs share one window. */
  readonly context: BrowserContext
  end(): Promise<void>
}

export async function hideableBrowser(): Promise<HideableBrowser> {
  const profile = mkdtempSync(join(tmpdir(), 'sidecall-profile-'))
  const child = spawn(
    process.env['SIDECALL_CHROMIUM'] ?? '/usr/bin/chromium',
    [
      '--headless=new',
      '--no-sandbox',
      '--disable-gpu',
      '--disable-dev-shm-usage',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
      '--no-first-run',
      '--mute-audio',
      '--remote-debugging-port=0',
      `--user-data-dir=${profile}`,
      'about:blank'
    ],
    { stdio: ['ignore', 'ignore', 'pipe'] }
  )
  const ended = once(child, 'close')
  const address = await new Promise<string>((found, failed) => {
    let words = ''
    child.stderr.setEncoding('utf8').on('data', (text: string) => {
      words += text
      const [, listening] = /DevTools listening on (\S+)/.exec(words) ?? []
      if (listening) found(listening)
    })
    void ended.then(() => failed(new Error(`Chromium did not start: ${words}`)))
  })
  const browser = await chromium.connectOverCDP(address, { noDefaults: true })
  const [context] = browser.contexts()
  if (!context) throw new Error('Chromium has no window.')
  return {
    context,
    async end() {
      const session = await browser.newBrowserCDPSession()
      // Closing cuts the connection that would bring the answer.
      await session.send('Browser.close').catch(() => undefined)
      await ended
      rmSync(profile, { recursive: true, force: true, maxRetries: 5 })
    }
  }
}

/** Opens another tab in front and waits until the page knows that it is hidden. The returned function brings it back. */
export async function hide(page: Page): Promise<() => Promise<void>> {
  const inFront = await page.context().newPage()
  await inFront.bringToFront()
  await page.waitForFunction(() => document.visibilityState === 'hidden', null, { polling: 50 })
  return async () => {
    await page.bringToFront()
    await page.waitForFunction(() => document.visibilityState === 'visible', null, { polling: 50 })
    await inFront.close()
  }
}
