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
import { CHROMIUM } from './launch.ts'

export interface HideableBrowser {
  /** The only context of such a browser: its tabs share one window. */
  readonly context: BrowserContext
  end(): Promise<void>
  /** As when the battery dies: nothing is written any more. The profile stays. */
  kill(): Promise<void>
}

/** `kept`: a profile folder that outlives the browser; without it, one that goes with it. */
export async function hideableBrowser(kept: string | null = null): Promise<HideableBrowser> {
  const profile = kept ?? mkdtempSync(join(tmpdir(), 'sidecall-profile-'))
  const child = spawn(
    CHROMIUM,
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
    { stdio: ['ignore', 'ignore', 'pipe'], detached: true }
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
      if (kept === null) rmSync(profile, { recursive: true, force: true, maxRetries: 5 })
    },
    async kill() {
      // With its helpers, which would write what the browser no longer can.
      if (child.pid !== undefined) process.kill(-child.pid, 'SIGKILL')
      await ended
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
