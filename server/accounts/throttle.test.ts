import { describe, expect, test } from 'vitest'
import { anApp, NOW } from '../../tests/helpers/an-app.ts'
import { memoryAccounts } from '../../tests/helpers/memory-accounts.ts'
import { aShopOf, type Shop } from '../../tests/helpers/shop-callers.ts'
import { OWNER, sending } from '../../tests/helpers/shop-people.ts'
import type { Ask } from '../../tests/helpers/cookie-jar.ts'
import type { Secrets } from './secrets.ts'
import { attempt } from './throttle.ts'

const MINUTE = 60_000
const HOUR = 60 * MINUTE

async function operatorOf(shop: Shop): Promise<string> {
  const { names } = (await (await shop.as('/api/names')).json()) as { names: { id: string; hasPin: boolean }[] }
  return names.find(({ hasPin }) => hasPin)?.id ?? ''
}

/** PINs from 1000 upwards that are none: 4711 is the right one. */
function guesses(ask: Ask, person: string, pins: readonly string[]): Promise<readonly number[]> {
  return pins.reduce<Promise<readonly number[]>>(
    async (before, pin) => [
      ...(await before),
      (await ask(`/api/names/${person}/check`, sending('POST', { pin }))).status
    ],
    Promise.resolve([])
  )
}
const some = (count: number, from = 5000) => Array.from({ length: count }, (_, index) => String(from + 7 * index))

async function another(shop: Shop): Promise<Ask> {
  const ask = shop.browser()
  const { code } = (await (await shop.boss('/api/pairing-codes', sending('POST'))).json()) as { code: string }
  await ask('/api/devices', sending('POST', { code, name: 'Another tablet' }))
  return ask
}

describe('guessing a PIN', () => {
  test('is slowed down after five, says how long to wait, and the right PIN waits too', async () => {
    const shop = await aShopOf('operator')
    const person = await operatorOf(shop)
    expect(await guesses(shop.as, person, some(5))).toEqual([403, 403, 403, 403, 403])
    const answer = await shop.as(`/api/names/${person}/check`, sending('POST', { pin: '4711' }))
    expect(answer.status).toBe(429)
    expect(answer.headers.get('retry-after')).toBe('30')
    shop.pass(30_000)
    expect(await guesses(shop.as, person, ['4711'])).toEqual([200])
    // Somebody who was clumsy begins anew.
    expect(await guesses(shop.as, person, some(4))).toEqual([403, 403, 403, 403])
  })

  test('all at once is no way around', async () => {
    const shop = await aShopOf('operator')
    const person = await operatorOf(shop)
    const all = await Promise.all(
      some(40).map(async (pin) => (await shop.as(`/api/names/${person}/check`, sending('POST', { pin }))).status)
    )
    expect(all.filter((status) => status === 403).length).toBeLessThanOrEqual(5)
  })

  test('tries few of ten thousand in a day, however patient', async () => {
    const shop = await aShopOf('operator')
    const person = await operatorOf(shop)
    let judged = 0
    for (let spent = 0; spent < 24 * HOUR; spent += 10_000) {
      const [status] = await guesses(shop.as, person, ['5005'])
      if (status === 403) judged += 1
      shop.pass(10_000)
    }
    expect(judged).toBeGreaterThan(10)
    expect(judged).toBeLessThan(40)
  }, 120_000)

  test('leaves the same person alone at another device, and others at this one', async () => {
    const shop = await aShopOf('operator')
    const person = await operatorOf(shop)
    const elsewhere = await another(shop)
    await guesses(shop.as, person, some(6))
    expect(await guesses(elsewhere, person, ['4711'])).toEqual([200])
    expect((await shop.as('/api/session', sending('POST', OWNER))).status).toBe(200)
  })

  test('from one device at everybody is slowed down as well', async () => {
    const shop = await aShopOf('device')
    const people: string[] = []
    for (let index = 0; index < 8; index += 1) {
      const added = await shop.boss('/api/people', sending('POST', { name: `Operator ${index}`, role: 'operator' }))
      const { person } = (await added.json()) as { person: { id: string } }
      await shop.boss(`/api/people/${person.id}/pin`, sending('PUT', { pin: '4711' }))
      people.push(person.id)
    }
    const statuses: number[] = []
    for (const person of people) statuses.push(...(await guesses(shop.as, person, some(4))))
    expect(statuses.filter((status) => status === 403)).toHaveLength(20)
    expect(statuses.slice(20).every((status) => status === 429)).toBe(true)
  })
})

describe('a guess that the server was too busy to judge', () => {
  const busyNow = () => {
    const accounts = memoryAccounts()
    const busy = { now: false }
    const matches: Secrets['matches'] = async (...given) => (busy.now ? 'busy' : accounts.secrets.matches(...given))
    return { busy, accounts: { ...accounts, secrets: { ...accounts.secrets, matches } } }
  }

  test('neither counts, nor wipes out the wrong passwords before it', async () => {
    const { busy, accounts } = busyNow()
    const shop = anApp({ accounts })
    await shop.owner()
    const signIn = async (password: string) =>
      (await shop.browser()('/api/session', sending('POST', { ...OWNER, password }))).status
    for (let index = 0; index < 4; index += 1) expect(await signIn('wrong password')).toBe(403)
    busy.now = true
    for (let index = 0; index < 10; index += 1) expect(await signIn('wrong password')).toBe(503)
    busy.now = false
    expect(await signIn('wrong password')).toBe(403)
    expect(await signIn(OWNER.password)).toBe(429)
  })

  test('is the same for a PIN', async () => {
    const { busy, accounts } = busyNow()
    const shop = anApp({ accounts })
    const ask = await shop.owner()
    const added = await ask('/api/people', sending('POST', { name: 'Oz Operator', role: 'operator' }))
    const { person } = (await added.json()) as { person: { id: string } }
    await ask(`/api/people/${person.id}/pin`, sending('PUT', { pin: '4711' }))
    expect(await guesses(ask, person.id, some(4))).toEqual([403, 403, 403, 403])
    busy.now = true
    expect(await guesses(ask, person.id, some(2))).toEqual([503, 503])
    busy.now = false
    expect(await guesses(ask, person.id, ['5005', '4711'])).toEqual([403, 429])
  })

  test('after a wait leaves the next wait as long as it would have been', async () => {
    const accounts = memoryAccounts()
    const guess = (now: number) => attempt(accounts, now, { person: 'p' }, { key: 'device d', isPaired: true })
    for (let index = 0; index < 5; index += 1) await guess(NOW)
    const unjudged = await guess(NOW + 30_000)
    expect(unjudged.waitMs).toBe(0)
    await unjudged.takeBack()
    expect((await guess(NOW + 30_000)).waitMs).toBe(0)
    expect((await guess(NOW + 30_000)).waitMs).toBe(60_000)
  })
})

describe('guessing a password', () => {
  const wrong = { ...OWNER, password: 'wrong password' }

  test('is remembered over a restart', async () => {
    const accounts = memoryAccounts()
    const before = anApp({ accounts })
    const ask = await before.owner()
    for (let index = 0; index < 5; index += 1) await before.browser()('/api/session', sending('POST', wrong))
    const after = anApp({ accounts })
    expect((await after.browser()('/api/session', sending('POST', OWNER))).status).toBe(429)
    expect((await ask('/api/me')).status).toBe(200)
  })

  test('from outside locks nobody out who stands at a paired device', async () => {
    const shop = await aShopOf('device')
    const outside = shop.browser()
    for (let spent = 0; spent < 2 * HOUR; spent += 5 * MINUTE) {
      await outside('/api/session', sending('POST', wrong))
      shop.pass(5 * MINUTE)
    }
    expect((await outside('/api/session', sending('POST', OWNER))).status).toBe(429)
    expect((await shop.as('/api/session', sending('POST', OWNER))).status).toBe(200)
  })

  test('of a name that nobody has is slowed down alike', async () => {
    const shop = anApp({ now: () => NOW })
    await shop.owner()
    const statuses = async (name: string) => {
      const all: number[] = []
      for (let index = 0; index < 7; index += 1)
        all.push((await shop.browser()('/api/session', sending('POST', { ...wrong, name }))).status)
      return all
    }
    expect(await statuses('Nobody At All')).toEqual(await statuses(OWNER.name))
  })
})

test('guessing codes is slowed down, and a right code after the wait still works', async () => {
  const shop = await aShopOf('nobody')
  const { code } = (await (await shop.boss('/api/pairing-codes', sending('POST'))).json()) as { code: string }
  const pair = (typed: string) => shop.as('/api/devices', sending('POST', { code: typed, name: 'Tablet' }))
  for (let index = 0; index < 5; index += 1) expect((await pair('AAAA-AAAA')).status).toBe(422)
  expect((await pair(code)).status).toBe(429)
  shop.pass(30_000)
  expect((await pair(code)).status).toBe(200)
})
