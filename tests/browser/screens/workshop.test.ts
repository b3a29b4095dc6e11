/** A supervisor's whole way in real Chromium: by keyboard alone, and by touch alone. */
import type { Browser, BrowserContext, Locator, Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest'
import type { Procedure } from '../../../src/core/procedure/procedure.ts'
import { SMALL } from '../../helpers/a-procedure.ts'
import { kitchenServer, type KitchenServer } from '../../helpers/kitchen-server.ts'
import { OWNER } from '../../helpers/shop-people.ts'
import { violations } from './axe.ts'
import { launchChromium } from '../launch.ts'

let browser: Browser
let server: KitchenServer
let context: BrowserContext
let page: Page
let complaints: string[]

beforeAll(async () => {
  browser = await launchChromium()
})
afterAll(() => browser.close())
beforeEach(async () => {
  server = await kitchenServer([SMALL])
  complaints = []
})
afterEach(async () => {
  await context.close()
  await server.end()
  if (complaints.length > 0) throw new Error(complaints.join('\n'))
})

async function open(viewport: { width: number; height: number }, hasTouch: boolean, asOwner = false): Promise<void> {
  // The judge is a script that our own content security policy rightly refuses.
  context = await browser.newContext({ viewport, hasTouch, bypassCSP: true })
  page = await context.newPage()
  page.on('pageerror', (error) => complaints.push(String(error)))
  if (asOwner) await becomeOwner()
  await page.goto(server.url)
}

/** The browser of this page is an owner's, who has just given the password. */
async function becomeOwner(): Promise<void> {
  const owner = await page.request.post(`${server.url}/api/password`, {
    data: { code: await server.ownerCode(), ...OWNER }
  })
  if (!owner.ok()) throw new Error(await owner.text())
}

async function offered(): Promise<Procedure> {
  const [current] = await server.records().currentProcedures()
  if (!current) throw new Error('Nothing is offered.')
  return current.procedure
}

const steps = ({ stages }: Procedure) => stages.flatMap((stage) => stage.steps)
const saved = () => page.locator('.draft-saving', { hasText: /^Saved\.$/ }).waitFor()
const checked = (words: string | RegExp) => page.locator('.draft-problems [role=status]', { hasText: words }).waitFor()

/** Presses Tab until what has the focus is called so. */
async function tabTo(name: string | RegExp, key: 'Tab' | 'Shift+Tab' = 'Tab'): Promise<void> {
  for (let presses = 0; presses < 120; presses += 1) {
    await page.keyboard.press(key)
    const found = await page.evaluate(() => {
      const focused = document.activeElement
      if (!(focused instanceof HTMLElement)) return ''
      const labels = 'labels' in focused ? [...((focused.labels as NodeListOf<HTMLElement> | null) ?? [])] : []
      const label = labels.map(({ textContent }) => textContent).join(' ')
      return (focused.getAttribute('aria-label') ?? (label || (focused.textContent ?? ''))).trim()
    })
    if (typeof name === 'string' ? found === name : name.test(found)) return
  }
  throw new Error(`Tab never came to ${String(name)}.`)
}

/** On a machine that is busy a tap can take as long as a long press, which means nothing here: then it is done again. */
async function tapFor(button: Locator, shown: Locator): Promise<void> {
  for (let taps = 0; taps < 4; taps += 1) {
    await button.tap()
    const isShown = await shown.waitFor({ timeout: 4000 }).then(
      () => true,
      () => false
    )
    if (isShown) return
  }
  throw new Error('Tapped four times, and nothing came of it.')
}

const tab = (name: string) => page.locator('.draft-tabs').getByRole('button', { name, exact: true })

async function retype(words: string): Promise<void> {
  await page.keyboard.press('Control+a')
  await page.keyboard.type(words)
}

test('by keyboard alone: improve, order, undo, mend the text, and publish', async () => {
  await open({ width: 1280, height: 800 }, false, true)
  await page.getByRole('button', { name: /^Procedures/ }).waitFor()
  await tabTo(/^Procedures/)
  await page.keyboard.press('Enter')
  await page.getByRole('heading', { name: 'Procedures' }).waitFor()
  await tabTo('Improve: Test')
  await page.keyboard.press('Enter')
  await page.locator('.draft-step').first().waitFor()

  // Words of the first step, and a longer wait.
  await tabTo(/^1 Fill the hopper\./)
  await page.keyboard.press('Enter')
  await retype('Fill the hopper to the line.')
  await tabTo('At least')
  await retype('3 min')
  await tabTo('At most')
  await page.keyboard.type('1 min')
  await checked('1 error, 0 warnings')
  await retype('20 min')
  await checked('Nothing. It can be published.')
  await saved()

  // A new step behind it, moved down by a key and back.
  await tabTo(/^Add a step/, 'Shift+Tab')
  await page.keyboard.type('Wipe the hopper rim.')
  await page.keyboard.press('Enter')
  await page.getByText('Wipe the hopper rim.').first().waitFor()
  await tabTo(/^2 Wipe the hopper rim\./, 'Shift+Tab')
  await page.keyboard.press('Alt+ArrowDown')
  await page.locator('.draft-step:nth-child(3)', { hasText: 'Wipe the hopper rim.' }).waitFor()
  await page.keyboard.press('Control+z')
  await page.locator('.draft-step:nth-child(2)', { hasText: 'Wipe the hopper rim.' }).waitFor()
  await page.keyboard.press('Control+y')
  await page.locator('.draft-step:nth-child(3)', { hasText: 'Wipe the hopper rim.' }).waitFor()

  // The same draft as text; a slip in it is told by line, and the way leads there.
  await tabTo('As text', 'Shift+Tab')
  await page.keyboard.press('Enter')
  await tabTo('The procedure as text')
  await page.keyboard.press('Control+Home')
  await page.keyboard.type('titel: x\n')
  await checked('1 error, 0 warnings')
  await tabTo(/Error, line 1/)
  await page.keyboard.press('Enter')
  await page.waitForFunction(() => document.activeElement instanceof HTMLTextAreaElement)
  await page.keyboard.press('Delete')
  await page.keyboard.press('Delete')
  await checked('Nothing. It can be published.')
  await saved()

  await tabTo('Publish', 'Shift+Tab')
  await page.keyboard.press('Enter')
  await tabTo('What is better now')
  await page.keyboard.type('Says how far.')
  // The tab and the button; the button waits for the note and for who publishes.
  await expect.poll(() => page.getByRole('button', { name: 'Publish', exact: true, disabled: false }).count()).toBe(2)
  await tabTo('Publish')
  await page.keyboard.press('Enter')
  await page.getByText(/test-machine is published/).waitFor()
  const published = steps(await offered())
  expect(published.map(({ say }) => say['en'])).toEqual([
    'Fill the hopper to the line.',
    'Draw a cup.',
    'Wipe the hopper rim.',
    'Switch the power on.'
  ])
  expect(published[0]?.wait).toMatchObject({ minSeconds: 180, maxSeconds: 1200 })

  // Back to what it was, by its versions.
  await tabTo('Versions: Test')
  await page.keyboard.press('Enter')
  await tabTo('Publish this one again')
  await page.keyboard.press('Enter')
  await page.keyboard.type('The line cannot be seen.')
  await tabTo('Publish this one again')
  await page.keyboard.press('Enter')
  await page.getByText(/test-machine is published/).waitFor()
  expect(steps(await offered())).toHaveLength(3)
})

test('by touch alone, while a run is going on: drag, two languages, try, compare, publish', async () => {
  await open({ width: 1280, height: 800 }, true)
  const kitchen = page
  await kitchen.locator('.card').tap()
  await kitchen.getByLabel('Who is doing it?').fill('Ada')
  await kitchen.getByRole('button', { name: 'Start', exact: true }).tap()
  await kitchen.locator('.call-area').waitFor()
  const before = await kitchen.locator('.call-text').innerText()

  const office = await browser.newContext({ viewport: { width: 1280, height: 800 }, hasTouch: true })
  page = await office.newPage()
  page.on('pageerror', (error) => complaints.push(String(error)))
  await becomeOwner()
  await page.goto(server.url)
  const improve = page.getByRole('button', { name: 'Improve: Test' })
  await tapFor(page.getByRole('button', { name: /^Procedures/ }), improve)
  await tapFor(improve, page.locator('.draft-step').first())

  const grip = await page.locator('.draft-step:nth-child(2) .draft-grip').boundingBox()
  const target = await page.locator('.draft-step:nth-child(1)').boundingBox()
  if (!grip || !target) throw new Error('There is nothing to drag.')
  const session = await office.newCDPSession(page)
  const finger = (type: 'touchStart' | 'touchMove' | 'touchEnd', x: number, y: number) =>
    session.send('Input.dispatchTouchEvent', { type, touchPoints: type === 'touchEnd' ? [] : [{ x, y }] })
  const from = [grip.x + grip.width / 2, grip.y + grip.height / 2] as const
  await finger('touchStart', ...from)
  await finger('touchMove', from[0], from[1] - 8)
  await finger('touchMove', from[0], target.y + 4)
  await page.locator('.draft-step.drop').waitFor()
  await finger('touchEnd', 0, 0)
  await page.locator('.draft-step:nth-child(1)', { hasText: 'Draw a cup.' }).waitFor()

  await saved()

  // A second language: what has no translation yet is told, and its field stands beside the first.
  await tapFor(tab('Machine and lists'), page.getByLabel(/^Languages/))
  await page.getByLabel(/^Languages/).fill('en, es')
  await page.getByLabel(/^Languages/).blur()
  await checked(/errors/)
  expect(await page.getByLabel('Name (Spanish)').count()).toBeGreaterThan(0)
  await page.getByRole('button', { name: 'Undo' }).tap()
  await checked('Nothing. It can be published.')

  await tapFor(tab('Try it'), page.locator('.plan-facts'))
  const main = page.locator('.draft-main')
  await tapFor(main.getByRole('button', { name: 'Try it' }), page.getByText(/^On a day as planned/))
  await tapFor(main.getByRole('button', { name: 'Play' }), main.getByRole('button', { name: 'Stop' }))
  await page.locator('.day-said', { hasText: 'Switch the power on.' }).waitFor()

  await page.getByRole('button', { name: 'Changes' }).tap()
  await page.getByText(/Moved/).first().waitFor()
  await tapFor(tab('Publish'), page.getByLabel('What is better now'))
  await page.getByLabel('What is better now').fill('A cup first.')
  await tapFor(main.getByRole('button', { name: 'Publish' }), page.getByText(/test-machine is published/))
  expect(steps(await offered()).map(({ id }) => id)).toEqual(['clear', 'fill', 'power'])

  await kitchen.bringToFront()
  expect(await kitchen.locator('.call-text').innerText()).toBe(before)
  const runs = await server.records().runs(9)
  const [current] = await server.records().currentProcedures()
  expect(runs.map(({ started }) => started.procedureHash)).not.toContain(current?.hash)
  await office.close()
})

test.each([
  { width: 390, height: 844 },
  { width: 1280, height: 800 }
])('at $width px nothing runs over the edge, and axe finds nothing', async (viewport) => {
  await open(viewport, true)
  const found: string[] = []
  const judge = async (name: string) => {
    found.push(...(await violations(page)).map((one) => `${name}: ${one}`))
    const width = await page.evaluate(() => document.documentElement.scrollWidth)
    if (width > viewport.width) found.push(`${name} is ${width} px wide`)
  }
  const improve = page.getByRole('button', { name: 'Improve: Test' })
  await tapFor(page.getByRole('button', { name: /^Procedures/ }), improve)
  await tapFor(improve, page.locator('.draft-step').first())
  for (const name of ['Steps', 'Machine and lists', 'As text', 'Try it', 'Changes', 'Publish']) {
    await tapFor(tab(name), page.locator(`.draft-tabs [aria-current]`, { hasText: name }))
    await judge(name)
  }
  await tapFor(page.getByRole('button', { name: 'Procedures', exact: true }), page.getByRole('heading', { level: 1 }))
  await judge('the list')
  expect(found).toEqual([])
})

test('authority that has run out is asked for where it is needed, and what was written stays', async () => {
  await open({ width: 1280, height: 800 }, false, true)
  await page.getByRole('button', { name: /^Procedures/ }).click()
  await page.getByRole('button', { name: 'Improve: Test' }).click()
  await page.getByLabel(/^Headline/).fill('Fill the hopper to the line.')
  await checked('Nothing. It can be published.')
  // A password stands for authority for five minutes.
  server.pass(6 * 60_000)
  await tab('Publish').click()
  await page.getByLabel('What is better now').fill('Says how far.')
  const publish = page.locator('.draft-main').getByRole('button', { name: 'Publish', exact: true })
  await page.getByLabel(/^Password/).fill(OWNER.password)
  expect(await publish.count()).toBe(0)
  await page.getByLabel(/^Password/).press('Enter')
  await publish.click()
  await page.getByText(/test-machine is published/).waitFor()
  expect((await server.records().lastReleases()).map(({ by, note }) => [by, note])).toEqual([
    [OWNER.name, 'Says how far.']
  ])
})

test('a field shows what the draft made of the words, goes back with it, and writes nothing that nobody typed', async () => {
  await open({ width: 1280, height: 800 }, false)
  await page.getByRole('button', { name: /^Procedures/ }).click()
  await page.getByRole('button', { name: 'Improve: Test' }).click()
  await tab('Machine and lists').click()
  const languages = page.getByLabel(/^Languages/)
  const shown = (words: string) => expect.poll(() => languages.inputValue()).toBe(words)
  // Written another way, and no change to the draft.
  await languages.fill('en ,')
  await languages.blur()
  await shown('en')
  await languages.fill('en ,es')
  await languages.blur()
  await shown('en, es')
  await page.getByRole('button', { name: 'Undo' }).click()
  await shown('en')
  await tab('Steps').click()
  await page.locator('.draft-step').first().waitFor()
  await page.getByRole('button', { name: 'Redo', disabled: false }).click()
  await tab('Machine and lists').click()
  await shown('en, es')
})
