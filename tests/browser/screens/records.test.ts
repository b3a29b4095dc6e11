/** Records in a real browser: read, signed, added to, printed on both sizes of paper, and taken away. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import type { Schedule } from '../../../src/core/due/schedule.ts'
import { SMALL } from '../../helpers/a-procedure.ts'
import { closedRun } from '../../helpers/closed-run.ts'
import { OWNER } from '../../helpers/shop-people.ts'
import { kitchenServer, type KitchenServer } from '../../helpers/kitchen-server.ts'
import { verifyCommand } from '../../record/verify-command.ts'
import { launchChromium } from '../launch.ts'

const CITED = { source: 'The manual', edition: 'not dated', status: 'memory' } as const
const schedule: Schedule = {
  duties: [{ kind: 'every', procedure: 'test-machine', everySeconds: 3600, otherwise: 'must-not-be-used', ...CITED }]
}
const BEGUN = Date.parse('2026-11-20T21:00:00-06:00')

let browser: Browser
let server: KitchenServer
let page: Page
let folder = ''

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'sidecall-print-'))
  browser = await launchChromium()
  server = await kitchenServer([SMALL], undefined, undefined, undefined, schedule)
  for (const [index, run] of ['a', 'b', 'c'].entries()) {
    const sent = await fetch(`${server.url}/api/events`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ events: closedRun(run, BEGUN + index * 86_400_000) })
    })
    if (!sent.ok) throw new Error(await sent.text())
  }
  page = await browser.newPage({ viewport: { width: 1024, height: 768 }, acceptDownloads: true })
  const owner = await page.request.post(`${server.url}/api/password`, {
    data: { code: await server.ownerCode(), ...OWNER }
  })
  if (!owner.ok()) throw new Error(await owner.text())
})
afterAll(async () => {
  await browser.close()
  await server.end()
  rmSync(folder, { recursive: true, force: true })
})

/** Width and height of the first page, in points. */
function paperOf(pdf: Buffer): readonly number[] {
  const [, width, height] = /\/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)/.exec(pdf.toString('latin1')) ?? []
  return [Math.round(Number(width)), Math.round(Number(height))]
}
const pagesOf = (pdf: Buffer) => pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)?.length ?? 0

test('what must not be used stands on the first screen', async () => {
  await page.goto(server.url)
  // On the card of its procedure, which is offered.
  const card = page.locator('.card', { hasText: 'must not be used' })
  await card.waitFor()
  expect(await card.innerText()).toContain('overdue: must not be used')
})

test('a record is read, added to and signed', async () => {
  await page.getByRole('button', { name: 'Records, and what is due' }).click()
  await page.getByText('not reviewed').first().waitFor()
  await page.getByRole('button', { name: 'Open' }).first().click()
  await page.getByRole('heading', { name: 'Test', level: 1 }).waitFor()
  expect(await page.locator('.record-form').innerText()).toMatch(/tried to cut the wait short, .* were left/)

  await page.getByRole('button', { name: 'Add to the record' }).click()
  await page.getByLabel('Your name').fill('Sue')
  await page.getByLabel('What', { exact: true }).selectOption('mix-lot')
  await page.getByLabel('Words').fill('Lot 17')
  await page.getByRole('button', { name: 'Keep' }).click()
  await page.getByText('Kept. It stands in the record.').waitFor()

  await page.getByRole('button', { name: 'Sign', exact: true }).click()
  const hold = page.locator('.press.hold')
  const box = await hold.boundingBox()
  if (!box) throw new Error('The button is not there.')
  await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2)
  await page.mouse.down()
  await page.getByText('Signed. The signature stands').waitFor()
  await page.mouse.up()
  expect(await page.locator('.signatures').innerText()).toMatch(
    /Olive Owner, .* review: I have looked this record through/
  )
})

// ISO 216 A4 is 210 x 297 mm, US Letter 8.5 x 11 in; a point is 1/72 in.
test.each([
  ['A4', [595, 842]],
  ['Letter', [612, 792]]
] as const)('it is printed on %s, without what only a screen needs', async (format, paper) => {
  const pdf = await page.pdf({ format, preferCSSPageSize: false })
  expect(paperOf(pdf).map((side, index) => Math.abs(side - (paper[index] ?? 0)) <= 1)).toEqual([true, true])
  expect(pagesOf(pdf)).toBeGreaterThanOrEqual(1)
  expect(pagesOf(pdf)).toBeLessThanOrEqual(4)
  const keep = process.env['SIDECALL_KEEP_PRINTS']
  if (keep !== undefined) writeFileSync(join(keep, `record-${format}.pdf`), pdf)
  await page.emulateMedia({ media: 'print' })
  expect(await page.getByRole('button', { name: 'Print' }).isVisible()).toBe(false)
  // Nothing sticks out to the right of the paper.
  expect(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true)
  await page.emulateMedia({ media: null })
})

test('several are printed together, each on a page of its own', async () => {
  await page.getByRole('button', { name: 'Back to the list' }).click()
  await page.getByLabel('From day').fill('2026-11-21')
  await page.getByRole('button', { name: 'Read or print these 2' }).click()
  await page.locator('.record-form').nth(1).waitFor()
  expect(await page.locator('.record-form').count()).toBe(2)
  expect(pagesOf(await page.pdf({ format: 'A4' }))).toBeGreaterThanOrEqual(2)
  await page.getByRole('button', { name: 'Back to the list' }).click()
})

test('a supervisor looks back: what was tried, and where the time goes', async () => {
  await page.getByRole('button', { name: 'Look back' }).click()
  await page.getByRole('heading', { name: 'The last 3 runs' }).waitFor()
  const attempts = page.getByRole('figure').filter({ hasText: 'Attempts to cut a wait short' })
  // One in each run: a cross, which is no matter of colour.
  expect(await attempts.locator('path').count()).toBe(3)
  expect(await page.locator('.step-costs li').first().innerText()).toMatch(/planned .* \(3 runs\)/)
  expect(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true)
  const keep = process.env['SIDECALL_KEEP_PRINTS']
  if (keep !== undefined) await page.screenshot({ path: join(keep, 'trends.png'), fullPage: true })
  await page.getByRole('button', { name: 'Back to the list' }).click()
  if (keep !== undefined) await page.screenshot({ path: join(keep, 'list.png'), fullPage: true })
})

test('files are taken away from the server and from the device, and checked without either', async () => {
  await page.getByRole('button', { name: 'Open' }).first().waitFor()
  const links = page.locator('.take-away')
  const saved = async (click: () => Promise<void>, name: string): Promise<string> => {
    const [download] = await Promise.all([page.waitForEvent('download'), click()])
    const path = join(folder, name)
    await download.saveAs(path)
    return path
  }
  const signed = await saved(() => links.getByRole('link', { name: 'Evidence (JSON)' }).click(), 'server.json')
  expect(verifyCommand([signed])).toMatchObject({
    code: 0,
    lines: [expect.stringContaining('1 signatures'), expect.anything()]
  })
  const loose = await saved(() => links.getByRole('button', { name: 'Evidence (JSON)' }).click(), 'device.json')
  expect(verifyCommand([loose]).lines.join()).toContain('no server has chained them')
  const table = await saved(() => links.getByRole('button', { name: 'Table (CSV)' }).click(), 'device.csv')
  expect(readFileSync(table, 'utf8')).toContain('attempt to cut a wait short')
})

test('with the server away the device shows and gives what it has', async () => {
  await server.stop()
  await page.getByRole('button', { name: 'Back', exact: true }).click()
  await page.getByRole('button', { name: 'Records, and what is due' }).click()
  await page.getByText('These are the records of this device alone.').waitFor()
  // The record that was added to here is kept here.
  expect(await page.getByRole('button', { name: 'Open' }).count()).toBe(1)
  await server.start()
})
