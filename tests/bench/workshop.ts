/** What a supervisor waits for with a procedure of 200 steps: its checks, and the keys of somebody who types in it. */
import type { Page } from 'playwright-core'
import { planFor } from '../../src/core/plan/plan.ts'
import { wholeProblem } from '../../src/core/plan/problem-of-run.ts'
import { checkProcedure } from '../../src/core/procedure/check-procedure.ts'
import { layOut } from '../../src/core/procedure/course.ts'
import { checkDraft } from '../../src/core/procedure/draft/check-draft.ts'
import { rulesFor } from '../../src/core/procedure/lint/lint.ts'
import { choose } from '../../src/core/sanitizer/shop-rules.ts'
import { RULE_SETS } from '../sanitizer/shipped-rule-sets.ts'
import { longProcedure, LONG_TITLE } from './long-procedure.ts'
import { builtShop } from './page/built-shop.ts'
import { slowDown } from './page/operator.ts'
import { median, percentile, type Figure } from './report.ts'
import { launchChromium } from '../browser/launch.ts'

const ROUNDS = 15
const KEYS = 'Wash every piece of this set with the soft brush.'
/** Eight keys in a second: a quick typist. */
const BETWEEN_KEYS_MS = 125
const SLOWER = 4

export async function benchWorkshop(): Promise<readonly Figure[]> {
  return [...benchChecks(), ...(await benchTyping())]
}

function benchChecks(): readonly Figure[] {
  const chosen = choose({ rules: 'us-food-code', labels: [] }, RULE_SETS)
  if (chosen.kind === 'faulty') throw new Error(chosen.what)
  const { shop } = chosen
  const text = longProcedure()
  const draft = checkDraft(text, shop)
  if (draft.kind === 'faulty') throw new Error(JSON.stringify(draft.findings[0]))
  const { written } = draft
  const rules = rulesFor(shop).filter(({ id }) => id !== 'limit-cannot-be-kept')
  const how = `median of ${ROUNDS}, 200 steps in two languages, processor time`
  return [
    figure('checks and rules of 200 steps', how, 20, () => {
      checkProcedure(written)
      for (const rule of rules) rule.find(written)
    }),
    figure('the plan, which tells whether limits can be kept', how, null, () => planFor(wholeProblem(layOut(written)))),
    figure('all of it from the text, as the bench does', how, null, () => checkDraft(text, shop))
  ]
}

function figure(name: string, how: string, atMost: number | null, work: () => unknown): Figure {
  const times = Array.from({ length: ROUNDS }, () => {
    const began = process.cpuUsage()
    work()
    const { user, system } = process.cpuUsage(began)
    return (user + system) / 1000
  })
  return { name, value: median(times), unit: 'ms', atMost, how }
}

async function benchTyping(): Promise<readonly Figure[]> {
  const shop = await builtShop({ 'bench-long.yaml': longProcedure() })
  const browser = await launchChromium()
  try {
    const page = await browser.newPage({ viewport: { width: 1280, height: 800 } })
    await page.goto(shop.url)
    await page.getByRole('button', { name: /^Procedures/ }).click()
    const improve = page.getByRole('button', { name: `Improve: ${LONG_TITLE}` })
    await improve.waitFor()
    await slowDown(page, SLOWER)
    const began = performance.now()
    await improve.click()
    await page.locator('.draft-step').nth(199).waitFor()
    const opened = performance.now() - began
    const form = await typeInto(page, page.getByLabel(/^Headline/).first())
    await page.getByRole('button', { name: 'As text' }).click()
    const text = await typeInto(page, page.getByLabel('The procedure as text'))
    const how = `${SLOWER}x slower, ${KEYS.length} keys, processor time of the main thread`
    return [
      { name: 'opening 200 steps', value: opened, unit: 'ms', atMost: null, how: `${SLOWER}x slower, once` },
      { name: 'a key in the form, median', value: median(form), unit: 'ms', atMost: 50, how },
      { name: 'a key in the form, p95', value: percentile(form, 95), unit: 'ms', atMost: 50, how },
      { name: 'a key in the form, worst', value: Math.max(...form), unit: 'ms', atMost: null, how },
      { name: 'a key in the text, median', value: median(text), unit: 'ms', atMost: 50, how },
      { name: 'a key in the text, p95', value: percentile(text, 95), unit: 'ms', atMost: 50, how }
    ]
  } finally {
    await browser.close()
    await shop.end()
  }
}

/**
 * Milliseconds of the page's main thread for each key, all that it caused until the next one included. Processor time:
 * the clock on the wall tells about other work on the machine.
 */
async function typeInto(page: Page, field: ReturnType<Page['getByLabel']>): Promise<readonly number[]> {
  await field.click()
  await page.waitForTimeout(1500)
  const session = await page.context().newCDPSession(page)
  await session.send('Performance.enable', { timeDomain: 'threadTicks' })
  const busy = async () => {
    const { metrics } = await session.send('Performance.getMetrics')
    return 1000 * (metrics.find(({ name }) => name === 'TaskDuration')?.value ?? Number.NaN)
  }
  const times: number[] = []
  for (const key of KEYS) {
    const before = await busy()
    await page.keyboard.type(key)
    await page.waitForTimeout(BETWEEN_KEYS_MS)
    times.push((await busy()) - before)
  }
  await session.detach()
  return times
}
