import { describe, expect, test } from 'vitest'
import { aShopOf, type Shop } from '../../tests/helpers/shop-callers.ts'
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
