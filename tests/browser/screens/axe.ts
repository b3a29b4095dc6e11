/** A page judged by axe-core: WCAG 2.2 A and AA rules. */
import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import type { AxeResults, RunOptions } from 'axe-core'
import type { Page } from 'playwright-core'

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')
const RULES: RunOptions = {
  runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
  resultTypes: ['violations']
}

declare global {
  // Only inside the page.
  var axe: { run(options: RunOptions): Promise<AxeResults> }
}

export async function violations(page: Page): Promise<readonly string[]> {
  const isLoaded = await page.evaluate(() => 'axe' in globalThis)
  // Not as a script tag, which our own content security policy rightly refuses.
  if (!isLoaded) await page.evaluate(AXE)
  const { violations: found } = await page.evaluate((rules) => axe.run(rules), RULES)
  return found.flatMap(({ id, nodes }) =>
    nodes.map(({ html, any }) => `${id}: ${html.slice(0, 140)} ${any[0]?.message ?? ''}`)
  )
}
