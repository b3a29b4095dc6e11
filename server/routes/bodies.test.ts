import { beforeAll, describe, expect, test } from 'vitest'
import type { Ask } from '../../tests/helpers/cookie-jar.ts'
import { expectProblem } from '../../tests/helpers/expect-problem.ts'
import { aShopOf } from '../../tests/helpers/shop-callers.ts'
import { RIGHTS } from './rights.ts'

/** Every route of accounts and signatures that takes a body; `x` is nobody and nothing. */
const WITH_BODY = [
  'POST /api/password',
  'POST /api/session',
  'POST /api/session/elevation',
  'PUT /api/me/password',
  'POST /api/names/:id/check',
  'POST /api/people',
  'PATCH /api/people/:id',
  'PUT /api/people/:id/pin',
  'POST /api/devices',
  'POST /api/links',
  'POST /api/links/open',
  'POST /api/runs/:id/signatures'
] as const

let ask: Ask
let people: Readonly<Record<string, string>> = {}
beforeAll(async () => {
  const shop = await aShopOf('elevated owner')
  ask = shop.as
  const made: Record<string, string> = {}
  const body = JSON.stringify({ name: 'Oz', role: 'operator' })
  const headers = { 'content-type': 'application/json' }
  const { person } = (await (await ask('/api/people', { method: 'POST', headers, body })).json()) as {
    person: { id: string }
  }
  await ask(`/api/people/${person.id}/pin`, { method: 'PUT', headers, body: JSON.stringify({ pin: '4711' }) })
  for (const route of WITH_BODY) made[route] = route.includes('/runs/') ? 'x' : person.id
  people = made
})

describe.each(WITH_BODY)('%s', (route) => {
  const send = (type: string, body: string | Uint8Array<ArrayBuffer>) => {
    const [method = '', path = ''] = route.split(' ')
    return ask(path.replace(':id', people[route] ?? ''), { method, headers: { 'content-type': type }, body })
  }

  test('stands in the table', () => {
    expect(RIGHTS).toHaveProperty([route])
  })

  test('takes no more than it needs', async () => {
    await expectProblem(await send('application/json', JSON.stringify({ name: 'x'.repeat(20_000) })), 413)
  })

  test('takes JSON alone, whatever else it is called', async () => {
    for (const type of ['text/plain', 'application/x-www-form-urlencoded', 'multipart/form-data; boundary=x', ''])
      await expectProblem(await send(type, '{}'), 415)
  })

  test.each([
    '',
    '{',
    'null',
    '[]',
    '"x"',
    '{"__proto__": {"role": "owner"}}',
    '{"constructor": 1}',
    '[[[[[[[[[['.repeat(500),
    '{"name": {"$ne": ""}, "password": {"$ne": ""}}'
  ])('refuses %j', async (body) => {
    await expectProblem(await send('application/json', body), 422)
  })

  test('refuses what is no UTF-8', async () => {
    await expectProblem(await send('application/json', new Uint8Array([0x22, 0xff, 0xfe, 0x22])), 422)
  })
})
