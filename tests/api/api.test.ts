/**
 * The description of the interface, and requests made from it: what it lets through, nearly that, and what has nothing to
 * do with it, from somebody with all rights, at what is there and at what is not. None may make the server fail, and
 * each refusal is a problem in words. Guesses at passwords and codes are soon slowed down; this shop has no clips and
 * keeps no voices. What a request does that is let through, the tests beside the routes show.
 */
import { readFileSync } from 'node:fs'
import { Ajv2020 } from 'ajv/dist/2020.js'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { RIGHTS } from '../../server/routes/rights.ts'
import { closedRun, publishSmall } from '../helpers/closed-run.ts'
import type { Ask } from '../helpers/cookie-jar.ts'
import { aShopOf } from '../helpers/shop-callers.ts'
import { sending } from '../helpers/shop-people.ts'
import { apiDescription, apiText, bodyOf, queriesOf } from './describe-api.ts'

test('an independent judge finds it to be OpenAPI 3.1', () => {
  // The OpenAPI Initiative's own schema (spec.openapis.org/oas/3.1/schema, Apache-2.0), as it is published.
  const published = readFileSync(new URL('openapi-3.1.schema.json', import.meta.url), 'utf8')
  const isOpenApi = new Ajv2020({ strict: false, validateFormats: false }).compile(JSON.parse(published) as object)
  const described = JSON.parse(apiText()) as { info: object }
  expect(isOpenApi(described), JSON.stringify(isOpenApi.errors)).toBe(true)
  expect(isOpenApi({ ...described, info: {} })).toBe(false)
})

const ajv = new Ajv2020({ strict: false })
const { components } = apiDescription() as { components: { schemas: { Problem: object } } }
const isProblem = ajv.compile(components.schemas.Problem)
/** Whoever takes these is nobody afterwards; a stream never ends. */
const LEFT_OUT = ['DELETE /api/session', 'DELETE /api/me/sessions', 'GET /api/live']
const ROUTES = Object.keys(RIGHTS).filter((route) => !LEFT_OUT.includes(route))

const nasty = fc.oneof(
  fc.constantFrom(
    '',
    ' ',
    '..',
    '../../etc/passwd',
    '%2e%2e%2f',
    '%00',
    '\u0000',
    '\ud83d',
    "'; DROP TABLE people; --",
    '__proto__'
  ),
  fc.constantFrom('<script>alert(1)</script>', '🧽'.repeat(300), 'x'.repeat(5000), '-1', '1e999', 'NaN', 'null'),
  fc.string({ unit: 'binary', maxLength: 40 })
)

/** What a schema lets through, or nearly: any part may be something else. */
function fitting(schema: Record<string, unknown>): fc.Arbitrary<unknown> {
  const {
    type,
    properties,
    enum: values,
    anyOf,
    items,
    const: one
  } = schema as {
    type?: string
    properties?: Record<string, Record<string, unknown>>
    enum?: unknown[]
    anyOf?: Record<string, unknown>[]
    items?: Record<string, unknown>
    const?: unknown
  }
  const right = (): fc.Arbitrary<unknown> => {
    if (one !== undefined) return fc.constant(one)
    if (values) return fc.constantFrom(...values)
    if (anyOf) return fc.oneof(...anyOf.map(fitting))
    if (type === 'object')
      return fc.record(
        Object.fromEntries(Object.entries(properties ?? {}).map(([name, part]) => [name, fitting(part)])),
        {
          requiredKeys: []
        }
      )
    if (type === 'array') return fc.array(items ? fitting(items) : fc.jsonValue(), { maxLength: 4 })
    if (type === 'boolean') return fc.boolean()
    if (type === 'integer' || type === 'number') return fc.oneof(fc.integer({ min: -2, max: 400 }), fc.double())
    return fc.oneof(fc.string({ minLength: 1, maxLength: 30 }), nasty)
  }
  return fc.oneof({ weight: 9, arbitrary: right() }, { weight: 1, arbitrary: fc.oneof(fc.jsonValue(), nasty) })
}

/** What is there, by the path that names it, or else by that path's beginning. */
type Named = Readonly<Record<string, string>>

function requestsTo(route: string, named: Named): fc.Arbitrary<readonly [path: string, init: RequestInit]> {
  const [method = '', path = ''] = route.split(' ')
  const there = named[path] ?? named[path.slice(0, path.indexOf('/:'))]
  const part = there === undefined ? nasty : fc.oneof(nasty, fc.constant(there))
  const parts = path.split('/').map((one) => (one.startsWith(':') ? part.map(encoded) : fc.constant(one)))
  const query = fc.record(Object.fromEntries(queriesOf(route).map((name) => [name, nasty])), { requiredKeys: [] })
  const text = fc.oneof(
    { weight: 6, arbitrary: fitting(bodyOf(route) ?? {}).map((body) => JSON.stringify(body) ?? '') },
    { weight: 1, arbitrary: fc.constantFrom('', '{', '[]', '"', '{"a":'.repeat(2000), '\ufeff{}', 'null') },
    { weight: 1, arbitrary: fc.constant('"' + 'x'.repeat(1_200_000) + '"') }
  )
  const init = text.map((body): RequestInit =>
    method === 'GET' || method === 'DELETE'
      ? { method }
      : { method, headers: { 'content-type': 'application/json' }, body }
  )
  return fc
    .tuple(fc.tuple(...parts), query, init)
    .map(
      ([segments, asked, one]) =>
        [
          `${segments.join('/')}?${new URLSearchParams(Object.entries(asked).map(([name, value]) => [name, value ?? ''])).toString()}`,
          one
        ] as const
    )
}

/** Half a character has no form in an address; a part of nothing would be another path. */
function encoded(part: string): string {
  return encodeURIComponent(part.toWellFormed()) || 'x'
}

const IS_EMPTY = /\/(speech|voices)/

/** A shop with one of each, and the browser of somebody with all rights. */
async function aBusyShop(): Promise<{ readonly ask: Ask; readonly named: Named }> {
  const shop = await aShopOf('elevated owner')
  const made = async <T>(path: string, init: RequestInit) => (await (await shop.as(path, init)).json()) as T
  const hash = await publishSmall(shop.records)
  await shop.as('/api/events', sending('POST', { events: closedRun('a') }))
  await shop.as('/api/workshop/drafts/twin', sending('PUT', { text: 'id: twin', by: 'Ada', base: null, after: 0 }))
  const adding = (name: string, role: string) =>
    made<{ person: { id: string } }>('/api/people', sending('POST', { name, role }))
  const { person: operator } = await adding('Oz Operator', 'operator')
  await shop.as(`/api/people/${operator.id}/pin`, sending('PUT', { pin: '4711' }))
  const supervisor = await adding('Sam Supervisor', 'supervisor')
  const linking = sending('POST', { kind: 'inspector', machine: null, note: 'Visit', days: 3 })
  const { link } = await made<{ link: { id: string } }>('/api/links', linking)
  const { code } = await made<{ code: string }>('/api/pairing-codes', sending('POST'))
  const pairing = await shop.browser()('/api/devices', sending('POST', { code, name: 'Tablet' }))
  const { device } = (await pairing.json()) as { device: { id: string } }
  const named = {
    '/api/people': supervisor.person.id,
    '/api/people/:id/pin': operator.id,
    '/api/names': operator.id,
    '/api/links': link.id,
    '/api/devices': device.id,
    '/api/runs': 'a',
    '/api/procedures': hash,
    '/api/times': 'test-machine',
    '/api/workshop/versions': hash,
    '/api/workshop/procedures': 'test-machine',
    '/api/workshop/drafts': 'twin'
  }
  return { ask: shop.as, named }
}

describe('whatever is sent', () => {
  test.each(ROUTES)('to %s is answered, or refused in words', async (route) => {
    const { ask, named } = await aBusyShop()
    const statuses = new Set<number>()
    await fc.assert(
      fc.asyncProperty(requestsTo(route, named), async ([path, init]) => {
        const answer = await ask(path, init)
        statuses.add(answer.status)
        expect(answer.headers.get('x-content-type-options')).toBe('nosniff')
        if (answer.status < 400) return void (await answer.arrayBuffer())
        // Busy, for a moment: not a failure.
        expect(answer.status === 503 ? 422 : answer.status).toBeLessThan(500)
        expect(answer.headers.get('content-type')).toBe('application/problem+json')
        const body: unknown = await answer.json()
        expect(isProblem(body), JSON.stringify(body)).toBe(true)
      }),
      { numRuns: 40 }
    )
    // It was the route that answered, and not a guard before it; and it was asked for something that is there.
    expect(await (await ask('/api/me')).json()).toMatchObject({ person: { elevatedMs: 5 * 60_000 } })
    if (!IS_EMPTY.test(route)) expect([...statuses].some((status) => ![401, 403, 404, 413].includes(status))).toBe(true)
  })
})
