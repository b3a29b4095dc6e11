/** From lifting the finger off the main key to the changed call on the screen, on a processor four times slower. */
import type { Browser } from 'playwright-core'
import { median, percentile, type Figure } from '../report.ts'
import { begin, freshPage, gather, mainKey, settle, slowDown } from './operator.ts'

const TOUCHES = 60
const SLOWER = 4
const BUDGET_MS = 100
/** A finger stays down for a moment, in which the page shows the key as pressed. From memory. */
const FINGER_DOWN_MS = 80

export async function benchTouches(browser: Browser, url: string, title: string): Promise<readonly Figure[]> {
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 }, hasTouch: true })
  const page = await freshPage(context)
  await page.goto(url)
  await gather(page, title)
  await begin(page)
  await slowDown(page, SLOWER)
  // Not the touch that began the run.
  await page.evaluate(() => {
    sidecallMarks.touches.length = 0
    sidecallMarks.nextPaints.length = 0
  })
  const session = await context.newCDPSession(page)
  for (let touch = 0; touch < TOUCHES; touch += 1) {
    await settle(page)
    const key = await mainKey(page).boundingBox()
    if (!key) throw new Error('There is no main key.')
    await settle(page)
    await session.send('Input.dispatchTouchEvent', {
      type: 'touchStart',
      touchPoints: [{ x: key.x + key.width / 2, y: key.y + key.height / 2 }]
    })
    await page.waitForTimeout(FINGER_DOWN_MS)
    await session.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] })
    // Asking the page right away would be work for it in the very moments that are timed.
    await settle(page)
    await page.waitForFunction((count) => sidecallMarks.touches.length > count, touch)
  }
  const { touches, nextPaints } = await page.evaluate(() => sidecallMarks)
  await context.close()
  const how = `${touches.length} touches, ${SLOWER}x slower; pointerup to after the paint of the new call`
  return [
    { name: 'touch to changed call', value: median(touches), unit: 'ms', atMost: BUDGET_MS, how: `median of ${how}` },
    { name: 'touch to changed call, p95', value: percentile(touches, 95), unit: 'ms', atMost: BUDGET_MS, how },
    {
      name: 'touch to changed call, worst',
      value: Math.max(...touches),
      unit: 'ms',
      atMost: null,
      how: 'same touches'
    },
    {
      name: 'touch to next frame, p98',
      value: percentile(nextPaints, 98),
      unit: 'ms',
      atMost: BUDGET_MS,
      how: 'Event Timing of the click: the key gives way'
    }
  ]
}
