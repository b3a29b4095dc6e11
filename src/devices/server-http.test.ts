import { createHash } from 'node:crypto'
import { once } from 'node:events'
import { createServer } from 'node:http'
import type { AddressInfo } from 'node:net'
import canonicalize from 'canonicalize'
import { http, HttpResponse, passthrough } from 'msw'
import { setupServer } from 'msw/node'
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest'
import { aProcedure, EVERYTHING } from '../../tests/helpers/a-procedure.ts'
import { counting, STARTED } from '../../tests/helpers/stamping.ts'
import type { RunEvent } from '../core/run/event.ts'
import type { ServerLink } from '../ports/server.ts'
import { serverOverHttp } from './server-http.ts'

const base = 'http://shop.test'
const network = setupServer()
const server = serverOverHttp({ base })

beforeAll(() => network.listen({ onUnhandledRequest: 'error' }))
afterEach(() => network.resetHandlers())
afterAll(() => network.close())

const stamp = counting()
const started = stamp(1_790_000_000_000)(STARTED)
const reported = (text: string): RunEvent => stamp(1_790_000_000_000)({ type: 'problem-reported', lane: 'left', text })

const UNREACHABLE = { kind: 'failed', failure: { kind: 'unreachable' } }
const NOT_UNDERSTOOD = { kind: 'failed', failure: { kind: 'not-understood' } }

const everyCall: readonly (readonly [string, (link: ServerLink) => Promise<unknown>])[] = [
  ['time', (link) => link.time()],
  ['procedures', (link) => link.procedures()],
  ['procedure', (link) => link.procedure('a'.repeat(64))],
  ['rules', (link) => link.rules()],
  ['runs', (link) => link.runs()],
  ['events', (link) => link.events('run', 0)],
  ['send', (link) => link.send([started])]
]

function everythingAnswers(answer: () => Response | Promise<Response>): void {
  network.use(http.all(`${base}/*`, answer))
}

describe.each(everyCall)('%s', (_, call) => {
  test('no network is unreachable', async () => {
    everythingAnswers(() => HttpResponse.error())
    expect(await call(server)).toEqual(UNREACHABLE)
  })

  test.each([500, 502, 503, 504, 507, 408, 429])('status %i passes: unreachable', async (status) => {
    everythingAnswers(() => new HttpResponse('<h1>Bad day</h1>', { status }))
    expect(await call(server)).toEqual(UNREACHABLE)
  })

  test.each([500, 507])(
    'problem details with status %i are the server in trouble, in its own words',
    async (status) => {
      const problem = { type: 'about:blank', title: 'The disk is full', status, detail: 'Make room.' }
      everythingAnswers(() =>
        HttpResponse.json(problem, { status, headers: { 'content-type': 'application/problem+json' } })
      )
      const failure = { kind: 'failing', status, title: 'The disk is full', detail: 'Make room.' }
      expect(await call(server)).toEqual({ kind: 'failed', failure })
    }
  )

  test('a refusal of the server comes with its words', async () => {
    const problem = { type: 'about:blank', title: 'Too large', status: 413, detail: 'Send less.' }
    everythingAnswers(() =>
      HttpResponse.json(problem, { status: 413, headers: { 'content-type': 'application/problem+json' } })
    )
    const failure = { kind: 'rejected', status: 413, title: 'Too large', detail: 'Send less.' }
    expect(await call(server)).toEqual({ kind: 'failed', failure })
  })

  test.each([200, 403, 404])("somebody's sign-in page with status %i is not understood", async (status) => {
    everythingAnswers(() => HttpResponse.html('<form>Sign in to the network</form>', { status }))
    expect(await call(server)).toMatchObject(NOT_UNDERSTOOD)
  })

  test('a redirect is not followed', async () => {
    everythingAnswers(() => new HttpResponse(null, { status: 302, headers: { location: 'http://sign-in.test/' } }))
    expect(await call(server)).toEqual(UNREACHABLE)
  })

  test.each(['null', '[]', '{}', '"ok"', '{"trusted":"soon","procedures":{},"runs":[{}],"events":[{}],"stored":[7]}'])(
    'JSON of another form is not understood: %s',
    async (body) => {
      everythingAnswers(() => new HttpResponse(body, { headers: { 'content-type': 'application/json' } }))
      expect(await call(server)).toMatchObject(NOT_UNDERSTOOD)
    }
  )

  test('an answer that never begins is unreachable after the time limit', async () => {
    everythingAnswers(() => new Promise<Response>(() => {}))
    expect(await call(serverOverHttp({ base, timeoutMs: 20 }))).toEqual(UNREACHABLE)
  })

  test('an answer whose connection breaks in the middle is unreachable', async () => {
    const broken = () =>
      new ReadableStream({
        start(controller) {
          controller.enqueue(new TextEncoder().encode('{"trusted":'))
        },
        pull(controller) {
          controller.error(new TypeError('the cable was cut'))
        }
      })
    everythingAnswers(() => new HttpResponse(broken(), { headers: { 'content-type': 'application/json' } }))
    expect(await call(server)).toEqual(UNREACHABLE)
  })
})

test('an answer that stops in the middle is unreachable after the time limit, not misunderstood', async () => {
  // Over a real connection: handlers in this process do not cut a body that has begun.
  const stalling = createServer((_, response) => response.writeHead(200).write('{"trusted":'))
  stalling.listen(0, '127.0.0.1')
  await once(stalling, 'listening')
  const address = `http://127.0.0.1:${(stalling.address() as AddressInfo).port}`
  network.use(http.all(`${address}/*`, () => passthrough()))
  try {
    expect(await serverOverHttp({ base: address, timeoutMs: 50 }).time()).toEqual(UNREACHABLE)
  } finally {
    stalling.closeAllConnections()
    stalling.close()
  }
})

describe('a procedure', () => {
  const procedure = aProcedure(EVERYTHING)
  const canonical = canonicalize(procedure) ?? ''
  const hash = createHash('sha256').update(canonical).digest('hex')

  function serves(body: string): void {
    network.use(http.get(`${base}/api/procedures/${hash}`, () => new HttpResponse(body)))
  }

  test('is taken when its contents have the hash asked for', async () => {
    serves(canonical)
    expect(await server.procedure(hash)).toEqual({ kind: 'answered', value: procedure })
  })

  test('is refused when a wait in it was shortened on the way', async () => {
    const shortened = canonical.replace('"minSeconds":300', '"minSeconds":3')
    expect(shortened).not.toBe(canonical)
    serves(shortened)
    expect(await server.procedure(hash)).toMatchObject(NOT_UNDERSTOOD)
  })
})

describe('events of a run', () => {
  test('one unknown event makes the answer unusable: a run with holes would be another run', async () => {
    const unknown = { ...started, id: 'x', type: 'from-the-future' }
    everythingAnswers(() => HttpResponse.json({ events: [started, unknown], position: 2 }))
    expect(await server.events('run', 0)).toMatchObject(NOT_UNDERSTOOD)
  })

  test('a run id is one part of the address, whatever is in it', async () => {
    network.use(
      http.get(`${base}/api/runs/:id/events`, ({ params, request }) => {
        expect(params['id']).toBe('a/../b?c#d')
        expect(new URL(request.url).searchParams.get('after')).toBe('7')
        return HttpResponse.json({ events: [started], position: 8 })
      })
    )
    const value = { events: [started], position: 8 }
    expect(await server.events('a/../b?c#d', 7)).toEqual({ kind: 'answered', value })
  })
})

describe('sending', () => {
  /** Takes every event, within the server's limits, and remembers how many came at a time. */
  function takesAll(): { readonly sizes: number[]; readonly ids: string[] } {
    const sizes: number[] = []
    const ids: string[] = []
    network.use(
      http.post(`${base}/api/events`, async ({ request }) => {
        expect(request.headers.get('content-type')).toBe('application/json')
        const text = await request.text()
        expect(new TextEncoder().encode(text).length).toBeLessThanOrEqual(1024 * 1024)
        const { events } = JSON.parse(text) as { readonly events: readonly RunEvent[] }
        sizes.push(events.length)
        ids.push(...events.map((event) => event.id))
        return HttpResponse.json({ stored: events.map((event) => event.id), rejected: [] })
      })
    )
    return { sizes, ids }
  }

  test('nothing to send asks nobody', async () => {
    expect(await server.send([])).toEqual({ kind: 'answered', value: { stored: [], rejected: [] } })
  })

  test('goes in requests of at most 500, in order, with one receipt', async () => {
    const events = Array.from({ length: 1100 }, () => reported('The pail leaks.'))
    const taken = takesAll()
    const stored = events.map((event) => event.id)
    expect(await server.send(events)).toEqual({ kind: 'answered', value: { stored, rejected: [] } })
    expect(taken.sizes).toEqual([500, 500, 100])
    expect(taken.ids).toEqual(stored)
  })

  test('goes in requests of at most 1 MB, counted in bytes and not in characters', async () => {
    const events = Array.from({ length: 400 }, () => reported('漏'.repeat(2000)))
    const taken = takesAll()
    await server.send(events)
    expect(taken.ids).toEqual(events.map((event) => event.id))
    expect(taken.sizes.length).toBeGreaterThan(1)
  })

  test('stops at the first request that fails and says so: all is safe to send again', async () => {
    let requests = 0
    network.use(
      http.post(`${base}/api/events`, () => {
        requests += 1
        return requests === 1 ? HttpResponse.json({ stored: [], rejected: [] }) : HttpResponse.error()
      })
    )
    expect(await server.send(Array.from({ length: 1100 }, () => reported('x')))).toEqual(UNREACHABLE)
    expect(requests).toBe(2)
  })
})
