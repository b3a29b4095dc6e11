/** A shop, and devices on which its page stands still until time is made to pass. */
import type { Browser, BrowserContextOptions, Page } from 'playwright-core'
import { afterAll, beforeAll } from 'vitest'
import { kitchenServer, type KitchenServer } from '../../helpers/kitchen-server.ts'
import { launchChromium } from '../launch.ts'
import { installScriptedVoice } from '../scripted-voice.ts'

export interface ShopScreens {
  readonly server: () => KitchenServer
  /** On a new device. `prepare` gets the page before it is loaded. */
  open(device: BrowserContextOptions, prepare?: (page: Page) => Promise<void>): Promise<Page>
  /** The page's timers run, and the server's clock with them; nobody waits for either. */
  pass(page: Page, ms: number): Promise<void>
}

/** Call once in a test file. */
export function shopScreens(procedure: string): ShopScreens {
  let browser: Browser
  let server: KitchenServer
  beforeAll(async () => {
    browser = await launchChromium()
    server = await kitchenServer([procedure])
  })
  afterAll(async () => {
    await browser.close()
    await server.end()
  })
  return {
    server: () => server,
    async open(device, prepare) {
      const context = await browser.newContext(device)
      // The transpiler may name functions through this helper, which a page does not have.
      await context.addInitScript('globalThis.__name = (named) => named')
      await context.addInitScript(installScriptedVoice)
      const page = await context.newPage()
      await prepare?.(page)
      await page.clock.install()
      await page.goto(server.url)
      return page
    },
    async pass(page, ms) {
      server.pass(ms)
      await page.clock.runFor(ms)
    }
  }
}
