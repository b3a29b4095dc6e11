import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { anApp, NOW } from '../../tests/helpers/an-app.ts'
import { anyEvent, shuffled } from '../../tests/helpers/any-event.ts'
import { expectProblem } from '../../tests/helpers/expect-problem.ts'
import { counting, STARTED } from '../../tests/helpers/stamping.ts'
import type { RunEvent } from '../../src/core/run/event.ts'
import { canonicalJson } from '../procedures/content-hash.ts'
import { memoryRecords } from '../storage/memory-records.ts'
import type { Records } from '../storage/records.ts'

const stamp = counting()(NOW)
const started = stamp(STARTED)
const paused = stamp({ type: 'paused' })
const resumed = stamp({ type: 'resumed' })

const RUNS = ['run-1', 'run-2', 'run-3']
const BEGINNINGS = RUNS.map((runId): RunEvent => ({ ...started, id: `beginning of ${runId}`, runId }))

/** Everything a page can ask for, without the order and the places in which things came. */
async function store(records: Records): Promise<unknown> {
  const events = await Promise.all(RUNS.map((run) => records.eventsAfter(run, 0)))
  const canonical = events.flatMap((kept) => kept.events.map(canonicalJson))
  return { events: canonical.sort(), runs: (await records.runs(100)).map((row) => canonicalJson(row)) }
}

describe('sending events', () => {
  test('however they are split, mixed up and sent again, the same is stored', async () => {
    const anyEvents = fc.uniqueArray(
      anyEvent.filter(({ type }) => type !== 'signed' && type !== 'name-checked'),
      { selector: ({ id }) => id, maxLength: 40 }
    )
    const anySending = anyEvents.chain((events) =>
      fc.record({
        events: fc.constant(events),
        // Everything at least once, some of it again, in any order, cut anywhere.
        sent: fc.subarray(events).chain((again) => shuffled([...events, ...again])),
        cuts: fc.array(fc.nat(80), { maxLength: 6 })
      })
    )
    await fc.assert(
      fc.asyncProperty(anySending, async ({ events, sent, cuts }) => {
        const once = anApp()
        await once.send({ events: BEGINNINGS })
        const receipt = await (await once.send({ events })).json()
        expect(receipt).toEqual({ stored: events.map(({ id }) => id), rejected: [] })
        const often = anApp()
        await often.send({ events: BEGINNINGS })
        const edges = [0, ...cuts.toSorted((a, b) => a - b), sent.length]
        for (const [index, from] of edges.entries()) {
          const part = sent.slice(from, edges[index + 1])
          const answer: unknown = await (await often.send({ events: part })).json()
          expect(answer).toEqual({ stored: part.map(({ id }) => id), rejected: [] })
        }
        expect(await store(often.records)).toEqual(await store(once.records))
      }),
      { numRuns: 60 }
    )
  })

  test('the same id with another body is refused, told, and changes nothing', async () => {
    const { send, app } = anApp()
    await send({ events: [started] })
    const answer = await send({ events: [{ ...started, by: 'Somebody else' }, paused] })
    expect(answer.status).toBe(200)
    expect(await answer.json()).toEqual({
      stored: [paused.id],
      rejected: [{ id: started.id, why: 'another event with this id is kept already' }]
    })
    expect(await (await app.request('/api/runs/run/events')).json()).toEqual({ events: [started, paused], position: 2 })
  })

  describe('of a run that is unknown here', () => {
    const unknown = { ...paused, runId: 'unheard-of' }
    const named = { id: unknown.id, why: 'nobody has told this server that its run began', because: 'unknown-run' }

    test('are refused by name, each by itself, logged once for each run, and nothing of them is kept', async () => {
      const { send, app, logged } = anApp()
      for (let sending = 0; sending < 3; sending += 1) {
        const answer = await send({ events: [unknown, started] })
        expect(answer.status).toBe(200)
        expect(await answer.json()).toEqual({ stored: [started.id], rejected: [named] })
      }
      expect(logged).toEqual(['Refused events of a run that is unknown here: "unheard-of"'])
      expect(await (await app.request('/api/runs/unheard-of/events')).json()).toMatchObject({ events: [] })
    })

    test('are taken once its beginning has come, and with it, wherever it stands among them', async () => {
      const { send, records } = anApp()
      const beginning: RunEvent = { ...started, runId: 'unheard-of' }
      expect(await (await send({ events: [unknown, beginning] })).json()).toMatchObject({ rejected: [] })
      const { events } = await records.eventsAfter('unheard-of', 0)
      expect(events).toEqual([beginning, unknown])
      expect((await records.sites()).map(({ site, places }) => [site, places])).toEqual([['Corner shop', 2]])
    })
  })

  const half = String.fromCharCode(0xd83d)
  test.each<readonly [string, unknown, string]>([
    ['no object', 7, ''],
    ['null', null, ''],
    ['an array', [started], ''],
    ['an id that is no text', { ...paused, id: 7 }, ''],
    ['an empty id', { ...paused, id: '' }, ''],
    ['a long id, which comes back whole', { ...paused, id: 'x'.repeat(101) }, 'x'.repeat(101)],
    ['an unknown type', { ...paused, type: 'deleted' }, paused.id],
    ['a member too many', { ...paused, admin: true }, paused.id],
    ['a member missing', { ...paused, by: undefined }, paused.id],
    ['a time that is text', { ...paused, at: '2026-01-05' }, paused.id],
    ['a time before 1970', { ...paused, at: -1 }, paused.id],
    ['a count below 1', { ...paused, seq: 0 }, paused.id],
    ['half a character', { ...paused, by: `Ada ${half}` }, paused.id],
    ['words without end', { ...paused, by: 'x'.repeat(2001) }, paused.id],
    ['a very long type', { ...paused, type: 'x'.repeat(10_000) }, paused.id]
  ])('a malformed one (%s) is refused by itself, with a reason; the rest is stored', async (_, value, id) => {
    const { send, logged } = anApp()
    const answer = await send({ events: [started, value, resumed] })
    expect(answer.status).toBe(200)
    const receipt = (await answer.json()) as { stored: string[]; rejected: { id: string; why: string }[] }
    expect(receipt.stored).toEqual([started.id, resumed.id])
    expect(receipt.rejected.map((rejected) => rejected.id)).toEqual([id])
    expect(receipt.rejected[0]?.why).toMatch(/^.{1,300}$/s)
    expect(logged).toEqual([expect.stringMatching(/^Refused an event: .{1,600}$/s)])
  })

  test('with a number too large for JSON is refused, not rounded', async () => {
    const { send } = anApp()
    const body = JSON.stringify({ events: [paused] }).replace(`"at":${NOW}`, '"at":1e999')
    expect(await (await send(body)).json()).toMatchObject({ stored: [], rejected: [{ id: paused.id }] })
  })

  test('500 at a time are taken, 501 are not', async () => {
    const { send, records } = anApp()
    const events = Array.from({ length: 501 }, (_, index) => ({ ...paused, id: `many-${index}` }))
    await expectProblem(await send({ events }), 422)
    expect(await records.eventsAfter('run', 0)).toEqual({ events: [], position: 0 })
    expect((await send({ events: events.slice(1) })).status).toBe(200)
  })

  test('more than 1 MB is refused, with and without a length that says so', async () => {
    const { send, app, records } = anApp()
    const body = JSON.stringify({ events: [paused], padding: 'x'.repeat(1024 * 1024) })
    await expectProblem(await send(body, { 'content-length': String(body.length) }), 413)
    const chunks = new Blob([body]).stream()
    const request = { method: 'POST', headers: { 'content-type': 'application/json' }, body: chunks, duplex: 'half' }
    await expectProblem(await app.request('/api/events', request), 413)
    expect(await records.eventsAfter('run', 0)).toEqual({ events: [], position: 0 })
    const largest = JSON.stringify({ events: [paused], padding: '' })
    const fits = largest.replace('""', `"${'x'.repeat(1024 * 1024 - largest.length)}"`)
    await send({ events: [started] })
    expect(await (await send(fits)).json()).toEqual({ stored: [paused.id], rejected: [] })
  })

  test.each([
    ['nothing', ''],
    ['words', 'hello'],
    ['JSON cut short', '{"events": ['],
    ['bytes that are no UTF-8', Uint8Array.of(...Buffer.from('{"events":["'), 0xff, ...Buffer.from('"]}'))],
    ['a form', 'events=1']
  ])('%s is no JSON', async (_, body) => {
    const { send, logged } = anApp()
    await expectProblem(await send(body), 400)
    expect(logged).toEqual([])
  })

  test.each(['null', '7', '"events"', '[]', '{}', '{"events":null}', '{"events":{}}', '{"events":"all"}'])(
    '%s holds no list of events',
    async (body) => {
      await expectProblem(await anApp().send(body), 422)
    }
  )

  test.each(['['.repeat(500_000), `{"events":${'['.repeat(200_000)}${']'.repeat(200_000)}}`])(
    'nesting without end does no harm',
    async (body) => {
      const { send, logged } = anApp()
      const answer = await send(body)
      expect([200, 400]).toContain(answer.status)
      expect(logged.every((line) => line.startsWith('Refused an event: ') && line.length < 700)).toBe(true)
    }
  )

  test('keys that mean something to JavaScript mean nothing here', async () => {
    const { send, records } = anApp()
    const body = JSON.stringify({ events: [paused] }).replace('{"id"', '{"__proto__":{"admin":true},"id"')
    const answer = (await (await send(body)).json()) as { stored: string[]; rejected: unknown[] }
    expect(answer.stored.length + answer.rejected.length).toBe(1)
    for (const event of (await records.eventsAfter('run', 0)).events) expect(event).toEqual(paused)
    expect({}).not.toHaveProperty('admin')
  })

  test.each([
    'text/plain',
    'application/x-www-form-urlencoded',
    'multipart/form-data; boundary=x',
    'application/jsonp',
    ''
  ])('as %j is refused, because a form on another site could send it', async (type) => {
    await expectProblem(await anApp().send({ events: [paused] }, { 'content-type': type }), 415)
  })

  test.each(['application/json', 'application/json; charset=utf-8', 'Application/JSON ;charset=UTF-8'])(
    'as %j is taken',
    async (type) => {
      expect((await anApp().send({ events: [paused] }, { 'content-type': type })).status).toBe(200)
    }
  )

  test('that cannot be stored is a failure without its inside, which only the log tells', async () => {
    const broken: Records = {
      ...memoryRecords(),
      addEvents: () => Promise.reject(new Error('SQLITE_IOERR in INSERT INTO events'))
    }
    const { send, logged } = anApp({ records: broken })
    await expectProblem(await send({ events: [paused] }), 500)
    expect(logged).toHaveLength(1)
    expect(logged[0]).toContain('POST /api/events: Error: SQLITE_IOERR')
  })
})

describe('asking for events', () => {
  test('from a position on gives what came since', async () => {
    const { send, app } = anApp()
    await send({ events: [started, { ...started, id: 'of another', runId: 'other' }] })
    await send({ events: [resumed] })
    const ask = async (path: string): Promise<unknown> => (await app.request(path)).json()
    expect(await ask('/api/runs/run/events')).toEqual({ events: [started, resumed], position: 3 })
    expect(await ask('/api/runs/run/events?after=1')).toEqual({ events: [resumed], position: 3 })
    expect(await ask('/api/runs/run/events?after=3')).toEqual({ events: [], position: 3 })
    expect(await ask('/api/runs/nobody/events?after=2')).toEqual({ events: [], position: 2 })
  })

  test.each(['-1', '1.5', '1e3', '0x10', 'one', '', ' 1', '9'.repeat(16)])('after %j is no position', async (after) => {
    const path = `/api/runs/run/events?after=${encodeURIComponent(after)}`
    await expectProblem(await anApp().app.request(path), 422)
  })

  test('of a run with any name finds that run and no other', async () => {
    const { send, app } = anApp()
    const runId = "a/b?c=%2e ../é' OR 1=1"
    await send({ events: [{ ...started, runId }, paused] })
    const answer = await app.request(`/api/runs/${encodeURIComponent(runId)}/events`)
    expect(await answer.json()).toMatchObject({ events: [{ id: started.id }] })
  })
})
