import { describe, expect, test } from 'vitest'
import { aShopOf, SUPERVISOR, type Shop } from '../../tests/helpers/shop-callers.ts'
import type { Ask } from '../../tests/helpers/cookie-jar.ts'
import { sending } from '../../tests/helpers/shop-people.ts'
import { NOW } from '../../tests/helpers/an-app.ts'
import { counting, STARTED } from '../../tests/helpers/stamping.ts'
import type { GivenName, RunEvent } from '../../src/core/run/event.ts'

const HOUR = 3600_000

async function withCheck(): Promise<{ shop: Shop; who: GivenName }> {
  const shop = await aShopOf('operator')
  const { names } = (await (await shop.as('/api/names')).json()) as { names: { id: string; hasPin: boolean }[] }
  const person = names.find(({ hasPin }) => hasPin)?.id ?? ''
  const answer = await shop.as(`/api/names/${person}/check`, sending('POST', { pin: '4711' }))
  const { check } = (await answer.json()) as { check: string }
  return { shop, who: { person, check } }
}

const started = (who: GivenName, by = 'Oz Operator', at = NOW): RunEvent =>
  ({ ...counting()(at)(STARTED), by, who }) as RunEvent

/** Another tablet of the shop. */
async function paired(shop: Shop, ask = shop.browser()): Promise<Ask> {
  const { code } = (await (await shop.boss('/api/pairing-codes', sending('POST'))).json()) as { code: string }
  await ask('/api/devices', sending('POST', { code, name: 'Another tablet' }))
  return ask
}

async function kept(shop: Shop, ...events: readonly RunEvent[]): Promise<readonly RunEvent[]> {
  const answer = await shop.as('/api/events', sending('POST', { events }))
  expect(await answer.json()).toMatchObject({ rejected: [] })
  return (await shop.records.eventsAfter('run', 0)).events
}

describe('a name whose PIN was right', () => {
  test('gets an entry of the server that says so, once, however often it is sent', async () => {
    const { shop, who } = await withCheck()
    const first = started(who)
    const checked = { type: 'name-checked', entry: first.id, person: who.person, by: 'Oz Operator', device: 'server' }
    expect(await kept(shop, first)).toMatchObject([{ type: 'run-started' }, checked])
    expect(await kept(shop, first)).toHaveLength(2)
  })

  test('also for whoever joins or takes over, each with an own entry', async () => {
    const { shop, who } = await withCheck()
    const stamp = counting('phone')
    const joined = { ...stamp(NOW + 1)({ type: 'joined', name: 'Oz Operator', who }) } as RunEvent
    const over = { ...stamp(NOW + 2)({ type: 'handed-over', to: 'Oz Operator', who }) } as RunEvent
    const events = await kept(shop, started(who, 'Ada'), joined, over)
    expect(events.flatMap((event) => (event.type === 'name-checked' ? [event.entry] : []))).toEqual([
      joined.id,
      over.id
    ])
    expect(new Set(events.map(({ device, seq }) => `${device} ${seq}`)).size).toBe(events.length)
  })
})

describe('a name that was not checked is kept all the same, and stays unchecked', () => {
  test.each([
    ['without a check', (who: GivenName) => started({ ...who, check: null })],
    ['with a made-up check', (who: GivenName) => started({ ...who, check: 'made-up' })],
    ['with the check of another person', (who: GivenName) => started({ ...who, person: 'another' })],
    ['under another name', (who: GivenName) => started(who, 'Ada')],
    ['half a day later', (who: GivenName) => started(who, 'Oz Operator', NOW + 12 * HOUR + 1)],
    ['before it was checked', (who: GivenName) => started(who, 'Oz Operator', NOW - HOUR)]
  ])('%s', async (_, event) => {
    const { shop, who } = await withCheck()
    expect(await kept(shop, event(who))).toMatchObject([{ type: 'run-started' }])
  })
})

describe("a check can be read in the record, and is nobody's but whose it was", () => {
  const sent = (ask: Ask, ...events: readonly RunEvent[]) => ask('/api/events', sending('POST', { events }))
  const types = async (shop: Shop) => (await shop.records.eventsAfter('run', 0)).events.map(({ type }) => type)

  test('another paired device that sends it gets no entry, and takes none from its owner', async () => {
    const { shop, who } = await withCheck()
    const other = await paired(shop)
    await sent(other, started(who))
    expect(await types(shop)).toEqual(['run-started'])
    await sent(shop.as, started(who))
    expect(await types(shop)).toEqual(['run-started', 'name-checked'])
  })

  test('somebody who is signed in elsewhere gets none either', async () => {
    const { shop, who } = await withCheck()
    await sent(shop.boss, started(who))
    expect(await types(shop)).toEqual(['run-started'])
  })

  test('where somebody was signed in on no paired device, it stays with that person, also once it is paired', async () => {
    const shop = await aShopOf('elevated')
    const added = await shop.boss('/api/people', sending('POST', { name: 'Oz Operator', role: 'operator' }))
    const { person } = (await added.json()) as { person: { id: string } }
    await shop.boss(`/api/people/${person.id}/pin`, sending('PUT', { pin: '4711' }))
    const answer = await shop.as(`/api/names/${person.id}/check`, sending('POST', { pin: '4711' }))
    const { check } = (await answer.json()) as { check: string }
    await paired(shop, shop.as)
    expect(await (await shop.as('/api/me')).json()).toMatchObject({ person: { name: SUPERVISOR.name } })
    await sent(shop.as, started({ person: person.id, check }))
    expect(await types(shop)).toEqual(['run-started', 'name-checked'])
  })

  test('one of which it was not kept whose it is counts as none', async () => {
    const { shop, who } = await withCheck()
    const [id, at] = ['of an earlier version', NOW]
    await shop.accounts.addCheck({ id, person: who.person, name: 'Oz Operator', at, givenTo: null })
    await sent(shop.as, started({ ...who, check: id }))
    expect(await types(shop)).toEqual(['run-started'])
  })
})

test('an entry that says so cannot be sent', async () => {
  const { shop, who } = await withCheck()
  const first = started({ ...who, check: null })
  const forged = {
    ...first,
    id: 'forged',
    seq: 2,
    type: 'name-checked',
    entry: first.id,
    person: who.person,
    who: undefined
  }
  for (const field of ['procedureId', 'procedureHash', 'site', 'machine', 'zone']) Reflect.deleteProperty(forged, field)
  const answer = await shop.as('/api/events', sending('POST', { events: [first, forged] }))
  expect(await answer.json()).toMatchObject({ rejected: [{ id: 'forged', why: expect.stringContaining('server') }] })
  expect((await shop.records.eventsAfter('run', 0)).events).toHaveLength(1)
})
