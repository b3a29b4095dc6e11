/**
 * How late an alarm is, on the real page: the due time that the kept events say, against the first sample of sound that
 * leaves for the loudspeaker and the moment the alarm stands in the document.
 */
import type { Page } from 'playwright-core'
import { layOut } from '../../../src/core/procedure/course.ts'
import { replay } from '../../../src/core/run/reduce.ts'
import { hide, hideableBrowser } from '../../browser/hideable-browser.ts'
import { tapSound } from '../../browser/sound-tap.ts'
import { aProcedure } from '../../helpers/a-procedure.ts'
import type { BuiltShop } from './built-shop.ts'
import { begin, freshPage, gather, mainKey, settle } from './operator.ts'

export type Circumstance = 'visible' | 'hidden' | 'blocked'

export interface AlarmSample {
  /** Milliseconds after the due time; below zero is early. */
  readonly soundLate: number
  readonly screenLate: number
  /** How far apart timers of 50 ms came while it was hidden, ms. */
  readonly timerGaps: readonly number[]
  readonly hiddenAtSound: boolean
}

export interface AlarmBench {
  readonly shop: BuiltShop
  readonly procedure: { readonly title: string; readonly yamlText: string; readonly waitMs: number }
  readonly waits: readonly Circumstance[]
}

/** The main thread is blocked from this long before the due time until this long after it, ms. */
const BLOCK_AROUND_MS = 2000

/** One run in a browser of its own; a sample for each wait in it. */
export async function sampleAlarms({ shop, procedure, waits }: AlarmBench): Promise<readonly AlarmSample[]> {
  const browser = await hideableBrowser()
  const page = await freshPage(browser.context)
  await page.setViewportSize({ width: 1280, height: 800 })
  await tapSound(page)
  await page.goto(shop.url)
  await gather(page, procedure.title)
  await begin(page)
  await page.waitForFunction(() => sidecallSound.listening)
  const course = layOut(aProcedure(procedure.yamlText))

  /** The due time of the wait that is on, carried over from trusted time to the page's own clock. */
  async function due(): Promise<number> {
    const { runId, events } = await shop.latestRun()
    const begun = events.findLast(({ type }) => type === 'step-done')
    const waiting = replay(course, runId, events).lanes['left']?.waiting
    if (!begun || !waiting || waiting.acknowledgedAt !== null) throw new Error('The server has not heard of the wait.')
    const wallDue = begun.deviceAt + (waiting.due - begun.at)
    return wallDue - (await page.evaluate(() => Date.now() - performance.now()))
  }

  async function sample(circumstance: Circumstance): Promise<AlarmSample> {
    await settle(page)
    const soundsBefore = await page.evaluate(() => sidecallSound.begun.length)
    await mainKey(page).click()
    await page.locator('[data-call=all-waiting]').waitFor()
    const show = circumstance === 'hidden' ? await hide(page) : null
    const gaps = show ? await watchTimers(page) : null
    if (circumstance === 'blocked') {
      await page.evaluate(
        ({ inMs, forMs }) => {
          setTimeout(() => {
            const end = performance.now() + forMs
            while (performance.now() < end);
          }, inMs)
        },
        { inMs: procedure.waitMs - BLOCK_AROUND_MS, forMs: 2 * BLOCK_AROUND_MS }
      )
    }
    const timeout = procedure.waitMs + 70_000
    await page.locator('.alarm').waitFor({ state: 'attached', timeout })
    await page.waitForFunction((count) => sidecallSound.begun.length > count, soundsBefore, { polling: 100, timeout })
    const timerGaps = (await gaps?.()) ?? []
    const seen = await page.evaluate((count) => {
      const { at, hidden } = sidecallSound.begun[count] ?? { at: Number.NaN, hidden: false }
      return { sound: at, screen: sidecallMarks.alarm ?? Number.NaN, hidden }
    }, soundsBefore)
    const planned = await due()
    await show?.()
    await settle(page)
    await page.locator('.alarm').click()
    await page.locator('.alarm').waitFor({ state: 'detached' })
    return {
      soundLate: seen.sound - planned,
      screenLate: seen.screen - planned,
      timerGaps,
      hiddenAtSound: seen.hidden
    }
  }

  const samples: AlarmSample[] = []
  try {
    for (const circumstance of waits) samples.push(await sample(circumstance))
  } finally {
    await browser.end()
  }
  return samples
}

async function watchTimers(page: Page): Promise<() => Promise<readonly number[]>> {
  const chain = await page.evaluateHandle(() => {
    const gaps: number[] = []
    let last = performance.now()
    const next = () => {
      gaps.push(performance.now() - last)
      last = performance.now()
      if (document.hidden) setTimeout(next, 50)
    }
    setTimeout(next, 50)
    return gaps
  })
  return () => chain.jsonValue()
}
