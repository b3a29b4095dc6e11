/** A shop from its first start to an inspector's visit, in the built page: who may do what, and that nobody's words become code. */
import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import type { RunEvent } from '../../../src/core/run/event.ts'
import { SMALL } from '../../helpers/a-procedure.ts'
import { closedRun, publishSmall } from '../../helpers/closed-run.ts'
import { kitchenServer, type KitchenServer } from '../../helpers/kitchen-server.ts'
import { OWNER } from '../../helpers/shop-people.ts'
import { violations } from './axe.ts'
import { launchChromium } from '../launch.ts'

const HURT = '<img src=x onerror="globalThis.hurt=1"><script>globalThis.hurt=1</script>'
/** A procedure whose every text is markup. */
const HURTFUL = SMALL.replace('procedure: test-machine', 'procedure: hurtful')
  .replace(/(title|summary|machine): .+/g, `$1: '${HURT}'`)
  .replace(/(say|more|why|question|confirm): [^,}\n]+/g, `$1: '${HURT}'`)
  .replace('name: Right', `name: '${HURT}'`)
  .replace('[Rinse it longer.]', `['${HURT}']`)
const BEGUN = Date.now() - 86_400_000

let browser: Browser
let server: KitchenServer
let office: Page
const complaints: string[] = []

/** Another device. What its page complains of fails the test; refusals of the server are expected. */
async function device(width = 1280, height = 800): Promise<Page> {
  const context: BrowserContext = await browser.newContext({ viewport: { width, height } })
  const page = await context.newPage()
  page.on('pageerror', (error) => complaints.push(String(error)))
  page.on('console', (message) => {
    if (/Content Security Policy|Refused to/.test(message.text())) complaints.push(message.text())
  })
  return page
}

beforeAll(async () => {
  browser = await launchChromium()
  server = await kitchenServer([SMALL, HURTFUL])
  office = await device()
})
afterAll(async () => {
  await browser.close()
  await server.end()
})

async function openPeople(page: Page): Promise<void> {
  await page.goto(server.url)
  await page.getByRole('button', { name: 'People and devices' }).click()
}

test('the code of the console makes the owner; operators and a supervisor are added', async () => {
  await openPeople(office)
  await office.getByRole('heading', { name: 'This shop has no owner yet' }).waitFor()
  await office.getByLabel('One-time code').fill(await server.ownerCode())
  await office.getByLabel('Your name').fill(OWNER.name)
  await office.getByLabel('New password').fill('short')
  await office.getByRole('button', { name: 'Become the owner' }).click()
  await office.getByText('Choose at least 10 characters').waitFor()
  await office.getByLabel('New password').fill(OWNER.password)
  await office.keyboard.press('Enter')
  await office.getByRole('heading', { name: 'Olive Owner, owner' }).waitFor()

  const form = office.getByRole('form', { name: 'Add a person' })
  await form.getByLabel('Name').fill('Oz')
  await form.getByLabel('PIN', { exact: true }).fill('4711')
  await form.getByRole('button', { name: 'Add' }).click()
  await office.getByRole('listitem', { name: 'Oz' }).waitFor()
  await form.getByLabel('Name').fill('Sam')
  await form.getByText('Supervisor: also').click()
  await form.getByRole('button', { name: 'Add' }).click()
  await office.getByText('For Sam: with this code').waitFor()
  await office.getByRole('button', { name: 'Change', exact: true }).first().click()
  expect(await violations(office)).toEqual([])
  await office.setViewportSize({ width: 390, height: 844 })
  expect(await office.evaluate(() => document.documentElement.scrollWidth)).toBe(390)
  await office.setViewportSize({ width: 1280, height: 800 })
  expect((await server.accounts().people()).map(({ name, role, hasSecret }) => [name, role, hasSecret])).toEqual([
    ['Olive Owner', 'owner', true],
    ['Oz', 'operator', true],
    ['Sam', 'supervisor', false]
  ])
})

test('a tablet that is not paired says so; it is paired by a code, and a PIN given at it stands in the record', async () => {
  const tablet = await device(1024, 768)
  await tablet.goto(server.url)
  await tablet.getByText('This device is not paired').waitFor()
  await office.getByRole('button', { name: 'Pairing code for another device' }).click()
  await office.getByText('Type this code at the other device').waitFor()
  const code = await office.locator('.people-code').innerText()
  await tablet.getByRole('button', { name: 'People and devices' }).click()
  await tablet.getByLabel('Pairing code').waitFor()
  expect(await violations(tablet)).toEqual([])
  await tablet.getByLabel('Pairing code').fill(code)
  await tablet.getByLabel('Name of this device').fill('Freezer tablet')
  await tablet.getByRole('button', { name: 'Pair', exact: true }).click()
  await tablet.getByText('Done.').waitFor()
  await tablet.getByRole('button', { name: 'Back' }).click()
  await tablet.locator('.card', { hasText: 'about' }).filter({ hasNotText: HURT }).click()

  await tablet.getByRole('button', { name: 'Oz', exact: true }).click()
  const pad = tablet.getByRole('group', { name: 'PIN of Oz' })
  const type = async (pin: string) => {
    for (const digit of pin) await pad.getByRole('button', { name: digit, exact: true }).click()
    await pad.getByRole('button', { name: 'Check' }).click()
  }
  await type('4712')
  await tablet.getByText('Not this PIN').waitFor()
  await tablet.setViewportSize({ width: 390, height: 844 })
  expect(await tablet.evaluate(() => document.documentElement.scrollWidth)).toBe(390)
  await tablet.setViewportSize({ width: 1024, height: 768 })
  expect(await violations(tablet)).toEqual([])
  await type('4711')
  await tablet.getByText('The PIN is right').waitFor()
  // 20 mm at 96 px an inch (the work target of the house) is 76 px.
  const sizes = await tablet.getByRole('button', { name: 'Oz', exact: true }).boundingBox()
  expect(Math.min(sizes?.width ?? 0, sizes?.height ?? 0)).toBeGreaterThanOrEqual(76)
  await tablet.getByRole('button', { name: 'Start', exact: true }).click()
  await tablet.locator('.call-area').waitFor()
  await expect
    .poll(async () => (await server.events()).map(({ type, by }) => `${type} ${by}`))
    .toContain('name-checked Oz')

  await tablet.getByRole('button', { name: 'Other …' }).click()
  await tablet.locator('.ways').getByRole('button', { name: 'Who is at work', exact: true }).click()
  await tablet.getByRole('button', { name: 'Hand over' }).click()
  await tablet.getByRole('button', { name: 'Sam', exact: true }).click()
  expect(await violations(tablet)).toEqual([])
  await tablet.locator('.panel .press.main').click()
  await expect
    .poll(async () => (await server.events()).find(({ type }) => type === 'handed-over'))
    .toMatchObject({ to: 'Sam', who: { check: null } })
  await tablet.context().close()
})

async function asOwner(method: 'POST' | 'PUT' | 'PATCH', path: string, data: unknown): Promise<unknown> {
  const answer = await office.request.fetch(`${server.url}${path}`, { method, data })
  if (!answer.ok()) throw new Error(await answer.text())
  return answer.json()
}

/** One run in which every text that somebody types is markup. */
function hurtfulRun(): readonly RunEvent[] {
  const events = closedRun('hurt', BEGUN, HURT, HURT).map((event) => ({ ...event, by: HURT }))
  const last = events.at(-1)
  if (!last) throw new Error('There are events.')
  const head = { runId: 'hurt', deviceAt: last.deviceAt, device: last.device, by: HURT, via: 'typed' as const }
  const before = { ...head, at: BEGUN + 20_000 }
  return [
    ...events,
    { ...before, id: 'hurt-problem', seq: 900, type: 'problem-reported', lane: 'left', text: HURT },
    { ...before, id: 'hurt-corrected', seq: 901, type: 'corrected', lane: 'left', action: HURT, redo: null },
    { ...before, id: 'hurt-over', seq: 902, type: 'handed-over', to: HURT },
    { ...head, at: last.at + 1, id: 'hurt-note', seq: 903, type: 'noted', field: 'remark', value: HURT },
    { ...head, at: last.at + 2, id: 'hurt-field', seq: 904, type: 'noted', field: HURT.slice(0, 100), value: HURT }
  ]
}

async function expectUnhurt(page: Page, where: string): Promise<void> {
  expect([where, await page.evaluate(() => Reflect.get(globalThis, 'hurt') as unknown)]).toEqual([where, undefined])
  expect([where, await page.locator('img[src="x"]').count()]).toEqual([where, 0])
}

test('script in every text is text on every page', async () => {
  await publishSmall(server.records())
  await asOwner('POST', '/api/events', { events: hurtfulRun() })
  const name = HURT.slice(0, 60)
  const { person } = (await asOwner('POST', '/api/people', { name, role: 'operator' })) as { person: { id: string } }
  await asOwner('PUT', `/api/people/${person.id}/pin`, { pin: '4711' })
  await asOwner('POST', '/api/links', { kind: 'inspector', machine: HURT, note: HURT, days: 2 })
  const { code } = (await asOwner('POST', '/api/pairing-codes', {})) as { code: string }
  const tablet = await device()
  const paired = await tablet.request.post(`${server.url}/api/devices`, { data: { code, name } })
  expect(paired.ok()).toBe(true)

  await openPeople(office)
  await office.getByRole('button', { name: 'Show it' }).last().click()
  await office.locator('.deeds li').first().waitFor()
  expect(await office.locator('.people').innerText()).toContain(name)
  await expectUnhurt(office, 'people')

  await office.getByRole('button', { name: 'Back' }).click()
  await office.getByRole('button', { name: 'Records, and what is due' }).click()
  await office.locator('.record-row', { hasText: HURT }).first().waitFor()
  await expectUnhurt(office, 'records')
  await office.getByRole('button', { name: 'Look back' }).click()
  await office.getByRole('heading').first().waitFor()
  await expectUnhurt(office, 'trends')
  await office.getByRole('button', { name: 'Back to the list' }).click()
  await office.locator('.record-row', { hasText: HURT }).getByRole('button', { name: 'Open' }).first().click()
  await office.locator('.record-form').waitFor()
  expect(await office.locator('.record-form').innerText()).toContain(HURT)
  await expectUnhurt(office, 'record')

  await office.goto(server.url)
  await office.getByRole('button', { name: /^Procedures/ }).click()
  await office.getByRole('button', { name: `Improve: ${HURT}` }).click()
  await office.locator('.draft-step').first().waitFor()
  await expectUnhurt(office, 'workshop')

  await tablet.goto(server.url)
  const card = tablet.locator('.card', { hasText: HURT })
  await card.waitFor()
  await expectUnhurt(tablet, 'choose')
  await card.click()
  await tablet.getByRole('button', { name }).click()
  await expectUnhurt(tablet, 'gather')
  await tablet.getByLabel('Who is doing it?').fill(HURT)
  await tablet.getByRole('button', { name: 'Start', exact: true }).click()
  await tablet.locator('.call-area').waitFor()
  expect(await tablet.locator('.call-area').innerText()).toContain('<script>')
  await expectUnhurt(tablet, 'run')
  await tablet.getByRole('button', { name: 'Other …' }).click()
  await tablet.locator('.ways').getByRole('button', { name: 'What was said', exact: true }).click()
  await tablet.locator('.panel').waitFor()
  await expectUnhurt(tablet, 'what was said')
  await tablet.context().close()
})

test('a link shows an inspector the records, and nothing to change', async () => {
  const { token } = (await asOwner('POST', '/api/links', {
    kind: 'inspector',
    machine: null,
    note: 'Visit',
    days: 2
  })) as { token: string }
  const visitor = await device()
  await visitor.goto(`${server.url}/#read=${token}`)
  await visitor.locator('.record-row').first().waitFor()
  expect(visitor.url()).not.toContain(token)
  await visitor.getByRole('button', { name: 'Open' }).last().click()
  await visitor.locator('.record-form').waitFor()
  await visitor.getByRole('button', { name: 'Print' }).waitFor()
  await visitor.getByRole('button', { name: 'Add to the record' }).waitFor({ state: 'detached' })
  expect(await visitor.getByRole('button', { name: 'Sign' }).count()).toBe(0)
  await visitor.context().close()
})

test('nothing of it broke the rules of the page', () => {
  expect(complaints).toEqual([])
})
