/** The built page in Chromium against the built server: how soon it is there, how it answers, how late it rings. */
import type { Figure } from '../report.ts'
import { benchAlarms, LONG_WAIT, SHORT_WAITS } from './alarms.ts'
import { builtShop } from './built-shop.ts'
import { benchColdStart } from './cold-start.ts'
import { ONE_KEY_TITLE, oneKeyProcedure, SHIPPED_TITLE } from './procedures.ts'
import { benchFirstWord } from './first-word.ts'
import { benchOwnEars } from './own-ears.ts'
import { benchTouches } from './touch-to-screen.ts'
import { launchChromium } from '../../browser/launch.ts'

export async function benchPage({ long }: { readonly long: boolean }): Promise<readonly Figure[]> {
  const shop = await builtShop({
    'bench-one-key.yaml': oneKeyProcedure(),
    'bench-short-waits.yaml': SHORT_WAITS.yamlText,
    'bench-long-wait.yaml': LONG_WAIT.yamlText
  })
  const browser = await launchChromium()
  try {
    const cold = await benchColdStart(browser, shop.url, SHIPPED_TITLE)
    const touches = await benchTouches(browser, shop.url, ONE_KEY_TITLE)
    const words = await benchFirstWord(browser)
    const ears = await benchOwnEars(browser)
    await browser.close()
    return [...cold, ...touches, ...words, ...ears, ...(await benchAlarms(shop, long))]
  } finally {
    await browser.close()
    await shop.end()
  }
}
