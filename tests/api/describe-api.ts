/** The server's interface as OpenAPI 3.1, made from the table of rights and the shapes that the routes check. */
import { toJsonSchema } from '@valibot/to-json-schema'
import type * as v from 'valibot'
import { DEVICE_BODIES } from '../../server/routes/devices.ts'
import { LINK_BODIES } from '../../server/routes/links.ts'
import { NAME_BODIES } from '../../server/routes/names.ts'
import { PEOPLE_BODIES } from '../../server/routes/people.ts'
import { RIGHTS } from '../../server/routes/rights.ts'
import { SESSION_BODIES } from '../../server/routes/session.ts'
import { SIGNATURE_BODIES } from '../../server/routes/signatures.ts'
import { WORKSHOP_BODIES } from '../../server/routes/workshop.ts'

type Json = Readonly<Record<string, unknown>>

const CHECKED: Readonly<Record<string, v.GenericSchema>> = {
  ...SESSION_BODIES,
  ...PEOPLE_BODIES,
  ...NAME_BODIES,
  ...DEVICE_BODIES,
  ...LINK_BODIES,
  ...SIGNATURE_BODIES,
  ...WORKSHOP_BODIES
}
/** Each event is judged by itself, so that one bad one does not hold back the others. */
const EVENTS: Json = {
  type: 'object',
  properties: { events: { type: 'array', maxItems: 500, items: {} } },
  required: ['events']
}

/** The JSON Schema of what a route takes; null for one that takes no JSON. */
export function bodyOf(route: string): Json | null {
  if (route === 'POST /api/events') return EVENTS
  const shape = CHECKED[route]
  if (!shape) return null
  // Unicode classes and trimming have no JSON Schema; the server checks them all the same.
  const { $schema: _, ...schema } = toJsonSchema(shape, { typeMode: 'input', errorMode: 'ignore' })
  return schema
}

const SCOPE = ['run', 'machine', 'site', 'from', 'to']
const QUERIES: Readonly<Record<string, readonly string[]>> = {
  'GET /api/records': SCOPE,
  'GET /api/trends': SCOPE,
  'GET /api/export.json': SCOPE,
  'GET /api/export.csv': [...SCOPE, 'language'],
  'GET /api/runs/:id/events': ['after'],
  'GET /api/wear': ['machine'],
  'GET /api/due': ['site', 'zone'],
  'GET /api/due.ics': ['site', 'zone', 'language', 'key'],
  'GET /api/speech/procedures/:hash': ['language'],
  'GET /api/voices/:person': ['language', 'known'],
  'PUT /api/voices/:person': ['language', 'known'],
  'DELETE /api/voices/:person': ['language', 'known'],
  'GET /api/deeds': ['before'],
  'DELETE /api/workshop/drafts/:id': ['revision']
}

export function queriesOf(route: string): readonly string[] {
  return QUERIES[route] ?? []
}

function operation(route: string, right: string): Json {
  const [method = '', path = ''] = route.split(' ')
  const open = [...path.matchAll(/:(\w+)/g)].map(([, name = '']) => name)
  const body = bodyOf(route)
  // A voice is packed band powers, and no JSON.
  const packed = route === 'PUT /api/voices/:person' ? { 'application/octet-stream': {} } : null
  const content = body === null ? packed : { 'application/json': { schema: body } }
  const problem = { $ref: '#/components/responses/Problem' }
  return {
    operationId: `${method.toLowerCase()}${path.replace(/\W+(\w)/g, (_, letter: string) => letter.toUpperCase())}`,
    'x-right': right,
    parameters: [
      ...open.map((name) => ({ name, in: 'path', required: true, schema: { type: 'string' } })),
      ...queriesOf(route).map((name) => ({ name, in: 'query', required: false, schema: { type: 'string' } }))
    ],
    ...(content === null ? {} : { requestBody: { required: true, content } }),
    responses: { '200': { description: 'Done.' }, '4XX': problem, '5XX': problem }
  }
}

export function apiDescription(): Json {
  const paths: Record<string, Record<string, Json>> = {}
  for (const [route, right] of Object.entries(RIGHTS)) {
    const [method = '', path = ''] = route.split(' ')
    const named = path.replace(/:(\w+)/g, '{$1}')
    paths[named] = { ...paths[named], [method.toLowerCase()]: operation(route, right) }
  }
  return {
    openapi: '3.1.0',
    info: {
      title: 'Sidecall',
      version: '1',
      description:
        'x-right says who may use a route: server/routes/rights.ts explains each. Cookies carry who asks; whatever changes something must come from the own page, or from a program that sends no Origin.'
    },
    paths,
    components: {
      responses: {
        Problem: {
          description: 'RFC 9457 problem details.',
          content: { 'application/problem+json': { schema: { $ref: '#/components/schemas/Problem' } } }
        }
      },
      schemas: {
        Problem: {
          type: 'object',
          properties: {
            type: { const: 'about:blank' },
            title: { type: 'string', minLength: 1 },
            status: { type: 'integer', minimum: 400, maximum: 599 },
            detail: { type: 'string', minLength: 1 }
          },
          required: ['type', 'title', 'status', 'detail'],
          additionalProperties: false
        }
      }
    }
  }
}

export function apiText(): string {
  return `${JSON.stringify(apiDescription(), null, 2)}\n`
}
