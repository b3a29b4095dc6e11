import { describe, expect, test } from 'vitest'
import { anApp, NOW } from '../../tests/helpers/an-app.ts'
import type { Ask } from '../../tests/helpers/cookie-jar.ts'
import { expectProblem } from '../../tests/helpers/expect-problem.ts'
import { aShopOf, SUPERVISOR } from '../../tests/helpers/shop-callers.ts'
import { OWNER, sending } from '../../tests/helpers/shop-people.ts'

interface Person {
  readonly id: string
  readonly name: string
  readonly role: string
}

async function people(ask: Ask): Promise<readonly Person[]> {
  return ((await (await ask('/api/people')).json()) as { people: Person[] }).people
}
async function named(ask: Ask, name: string): Promise<string> {
  return (await people(ask)).find((person) => person.name === name)?.id ?? ''
}
const change = (ask: Ask, id: string, body: object) => ask(`/api/people/${id}`, sending('PATCH', body))
const add = (ask: Ask, name: string, role: string) => ask('/api/people', sending('POST', { name, role }))

describe('a supervisor', () => {
  test('looks after operators, and after nobody else', async () => {
    const shop = await aShopOf('elevated')
    expect((await add(shop.as, 'Oz', 'operator')).status).toBe(200)
    const oz = await named(shop.as, 'Oz')
    expect((await change(shop.as, oz, { name: 'Oz B.' })).status).toBe(200)
    expect((await shop.as(`/api/people/${oz}/pin`, sending('PUT', { pin: '4711' }))).status).toBe(200)
    await expectProblem(await change(shop.as, oz, { role: 'supervisor' }), 403)
    await expectProblem(await change(shop.as, oz, { role: 'owner' }), 403)
    await expectProblem(await add(shop.as, 'Another', 'supervisor'), 403)
    const owner = await named(shop.as, OWNER.name)
    await expectProblem(await change(shop.as, owner, { role: 'operator' }), 403)
    await expectProblem(await change(shop.as, owner, { isActive: false }), 403)
    await expectProblem(await shop.as(`/api/people/${owner}/password-code`, sending('POST')), 403)
    const own = await named(shop.as, SUPERVISOR.name)
    await expectProblem(await change(shop.as, own, { role: 'owner' }), 403)
    await expectProblem(await shop.as('/api/deeds'), 403)
  })
})

describe('an owner', () => {
  test('is never the last one to go', async () => {
    const shop = anApp()
    const ask = await shop.owner()
    const own = await named(ask, OWNER.name)
    await expectProblem(await change(ask, own, { isActive: false }), 409)
    await expectProblem(await change(ask, own, { role: 'supervisor' }), 409)
    await add(ask, 'Second Owner', 'owner')
    expect((await change(ask, own, { role: 'supervisor' })).status).toBe(200)
  })

  test('whose role is taken away has it no more in what is already open', async () => {
    const shop = await aShopOf('elevated')
    expect((await shop.as('/api/pairing-codes', sending('POST'))).status).toBe(200)
    await change(shop.boss, await named(shop.boss, SUPERVISOR.name), { role: 'operator' })
    await expectProblem(await shop.as('/api/pairing-codes', sending('POST')), 401)
    // The password is gone with the role: it would be no PIN.
    const body = sending('POST', SUPERVISOR)
    await expectProblem(await shop.as('/api/session', body), 403)
  })

  test('gives a code for a password, and never learns the password; it works once', async () => {
    const shop = anApp()
    const ask = await shop.owner()
    await add(ask, 'Sam', 'supervisor')
    const made = await ask(`/api/people/${await named(ask, 'Sam')}/password-code`, sending('POST'))
    const { code } = (await made.json()) as { code: string }
    const sam = shop.browser()
    const use = () =>
      sam('/api/password', sending('POST', { code, name: 'Olive Owner', password: 'blue kettle noise' }))
    // Whatever name is given with it, it is Sam's.
    expect(await (await use()).json()).toMatchObject({ person: { name: 'Sam', role: 'supervisor' }, device: null })
    await expectProblem(await use(), 422)
  })
})

describe('codes for a password', () => {
  async function someCodes() {
    const shop = anApp()
    const ask = await shop.owner()
    await add(ask, 'Sam', 'supervisor')
    const sam = await named(ask, 'Sam')
    const made = async () => {
      const answer = await ask(`/api/people/${sam}/password-code`, sending('POST'))
      return ((await answer.json()) as { code: string }).code
    }
    const use = (code: string) =>
      shop.browser()('/api/password', sending('POST', { code, password: 'blue kettle noise' }))
    return { ask, sam, use, accounts: shop.accounts, codes: [await made(), await made()] as const }
  }

  test('are all over once one of them was used', async () => {
    const { use, codes } = await someCodes()
    expect((await use(codes[1])).status).toBe(200)
    await expectProblem(await use(codes[0]), 422)
  })

  test.each([
    ['has become an operator', { role: 'operator' }, { role: 'supervisor' }],
    ['has left', { isActive: false }, { isActive: true }]
  ])('are over when the person %s, also after a way back', async (_, there, back) => {
    const { ask, sam, use, codes } = await someCodes()
    await change(ask, sam, there)
    await expectProblem(await use(codes[0]), 422)
    await change(ask, sam, back)
    await expectProblem(await use(codes[1]), 422)
  })

  test('stay good over a new name', async () => {
    const { ask, sam, use, codes } = await someCodes()
    await change(ask, sam, { name: 'Sam S.' })
    expect((await use(codes[0])).status).toBe(200)
  })

  test('set none of an operator, were there one', async () => {
    const { ask, sam, use, accounts } = await someCodes()
    await change(ask, sam, { role: 'operator' })
    const token = accounts.secrets.ofToken('ABCD-EFGH')
    await accounts.addCode({ token, kind: 'password', person: sam, expiresAt: NOW + 1000 })
    await expectProblem(await use('ABCD-EFGH'), 422)
    expect(await accounts.secretOf(sam)).toBeNull()
  })
})

describe('names', () => {
  test('are one person each, however they are written', async () => {
    const shop = anApp()
    const ask = await shop.owner()
    expect((await add(ask, 'Zo\u00eb', 'operator')).status).toBe(200)
    for (const name of ['Zoe\u0308', ' ZO\u00cb ', 'zo\u00eb'])
      await expectProblem(await add(ask, name, 'operator'), 409)
    await expectProblem(await change(ask, await named(ask, 'Zo\u00eb'), { name: 'olive owner' }), 409)
  })

  test.each(['', '  ', 'x'.repeat(61), '\ud83d', 'a\u0000b', 'a\nb'])('%j is none', async (name) => {
    const ask = await anApp().owner()
    await expectProblem(await add(ask, name, 'operator'), 422)
    expect(await people(ask)).toHaveLength(1)
  })

  test('of somebody who has left are not offered, and stay known', async () => {
    const shop = await aShopOf('operator')
    const oz = await named(shop.boss, 'Oz Operator')
    await change(shop.boss, oz, { isActive: false })
    const { names } = (await (await shop.as('/api/names')).json()) as { names: { name: string }[] }
    expect(names.map(({ name }) => name)).toEqual([OWNER.name])
    await expectProblem(await shop.as(`/api/names/${oz}/check`, sending('POST', { pin: '4711' })), 404)
    expect((await people(shop.boss)).map(({ name }) => name)).toContain('Oz Operator')
    await change(shop.boss, oz, { isActive: true })
    expect((await shop.as(`/api/names/${oz}/check`, sending('POST', { pin: '4711' }))).status).toBe(200)
  })
})

describe('the log of who did what', () => {
  test('names everything that has authority, and holds no secret', async () => {
    const shop = await aShopOf('operator')
    const oz = await named(shop.boss, 'Oz Operator')
    await shop.as(`/api/names/${oz}/check`, sending('POST', { pin: '5555' }))
    await shop.browser()('/api/session', sending('POST', { name: 'my secret typed as a name', password: 'x' }))
    await shop.browser()('/api/session', sending('POST', { name: OWNER.name, password: 'a wrong password' }))
    const answer = await (await shop.boss('/api/deeds')).text()
    const { deeds } = JSON.parse(answer) as { deeds: { id: number; what: string; by: string; about: string }[] }
    expect(deeds.map(({ what, by, about }) => `${by} ${what} ${about}`).toReversed()).toEqual([
      'Olive Owner owner-made Olive Owner',
      'Olive Owner password-set Olive Owner',
      'Olive Owner pairing-code-made ',
      'Olive Owner device-paired Tablet',
      'Olive Owner person-added Oz Operator (operator)',
      'Olive Owner pin-set Oz Operator',
      'Olive Owner password-given-again ',
      ' pin-refused Oz Operator',
      ' sign-in-refused ',
      ' sign-in-refused Olive Owner'
    ])
    for (const secret of ['4711', '5555', OWNER.password, 'a wrong password', 'my secret', 'scrypt'])
      expect(answer).not.toContain(secret)
    const older = (await (await shop.boss(`/api/deeds?before=${deeds[1]?.id}`)).json()) as { deeds: { id: number }[] }
    expect(older.deeds[0]?.id).toBe(deeds[2]?.id)
    expect(shop.logged).toEqual([])
  })
})
