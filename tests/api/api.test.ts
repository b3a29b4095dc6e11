/** Requests of every shape against every route, as somebody with all rights: whatever comes, nothing breaks. */
import { readFileSync } from 'node:fs'
import { Ajv2020 } from 'ajv/dist/2020.js'
import fc from 'fast-check'
import { beforeAll, describe, expect, test } from 'vitest'
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

function requestsTo(route: string): fc.Arbitrary<readonly [path: string, init: RequestInit]> {
  const [method = '', path = ''] = route.split(' ')
  const parts = path.split('/').map((part) => (part.startsWith(':') ? nasty.map(encoded) : fc.constant(part)))
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

describe('whatever is sent', () => {
  let ask: Ask
  beforeAll(async () => {
    const shop = await aShopOf('elevated owner')
    await publishSmall(shop.records)
    await shop.as('/api/events', sending('POST', { events: closedRun('a') }))
    ask = shop.as
  })

  test.each(ROUTES)('%s answers as it says it does', async (route) => {
    await fc.assert(
      fc.asyncProperty(requestsTo(route), async ([path, init]) => {
        const answer = await ask(path, init)
        const isError = answer.status >= 400
        expect([answer.status, isError && answer.status >= 500 && answer.status !== 503]).toEqual([
          answer.status,
          false
        ])
        expect(answer.headers.get('x-content-type-options')).toBe('nosniff')
        if (!isError) return void (await answer.arrayBuffer())
        expect(answer.headers.get('content-type')).toBe('application/problem+json')
        const body: unknown = await answer.json()
        expect(isProblem(body), JSON.stringify(body)).toBe(true)
      }),
      { numRuns: 40 }
    )
  })
})
