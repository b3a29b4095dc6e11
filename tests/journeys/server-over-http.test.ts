/** The page's own link to the server, with the real app at its other end. */
import { http } from 'msw'
import { setupServer } from 'msw/node'
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest'
import { canonicalJson, sha256 } from '../../server/procedures/content-hash.ts'
import type { Records } from '../../server/storage/records.ts'
import { memoryRecords } from '../../server/storage/memory-records.ts'
import type { RunEvent } from '../../src/core/run/event.ts'
import { serverOverHttp } from '../../src/devices/server-http.ts'
import { aProcedure, EVERYTHING } from '../helpers/a-procedure.ts'
import { anApp, NOW, type AnApp } from '../helpers/an-app.ts'
import { counting, STARTED } from '../helpers/stamping.ts'

const base = 'http://shop.test'
const link = serverOverHttp({ base })
let shop: AnApp

const network = setupServer(http.all(`${base}/*`, ({ request }) => shop.app.fetch(request)))
beforeAll(() => network.listen({ onUnhandledRequest: 'error' }))
afterAll(() => network.close())
beforeEach(() => {
  shop = anApp()
})
afterEach(() => {
  const failures = shop.logged.filter((line) => !line.startsWith('Refused an event: '))
  if (failures.length > 0) throw new Error(`The server logged: ${failures.join()}`)
})

const stamp = counting()(NOW)
const started = stamp(STARTED)
const paused = stamp({ type: 'paused' })

const answered = (value: unknown) => ({ kind: 'answered', value })

test('time is what the server says', async () => {
  expect(await link.time()).toEqual(answered({ trusted: NOW }))
})

describe('procedures', () => {
  const procedure = aProcedure(EVERYTHING)
  const canonical = canonicalJson(procedure)
  const hash = sha256(canonical)
  const fault = { file: 'bad.yaml', problems: [{ line: null, what: 'It is bad.', mend: 'Mend it.' }] }

  beforeEach(async () => {
    const records = memoryRecords()
    await records.publish({ hash, procedure, canonical, source: EVERYTHING }, NOW)
    shop = anApp({ records, faults: [fault] })
  })

  test('are listed in short, with the files that are faulty', async () => {
    const { id, title, summary, machine, sides } = procedure
    const listing = { id, hash, title, summary, machine, sides, aboutSeconds: expect.any(Number) }
    expect(await link.procedures()).toEqual(answered({ procedures: [listing], faults: [fault] }))
  })

  test('come whole, and are what was hashed', async () => {
    expect(await link.procedure(hash)).toEqual(answered(procedure))
  })

  test.each(['0'.repeat(64), '', '../runs', 'é'])('with no such hash (%j) are refused in words', async (other) => {
    const answer = await link.procedure(other)
    expect(answer).not.toMatchObject({ kind: 'answered' })
  })
})

describe('events', () => {
  test('sent are stored, listed, and given back as they were', async () => {
    expect(await link.send([started, paused])).toEqual(answered({ stored: [started.id, paused.id], rejected: [] }))
    expect(await link.events('run', 0)).toEqual(answered({ events: [started, paused], position: 2 }))
    expect(await link.events('run', 1)).toEqual(answered({ events: [paused], position: 2 }))
    expect(await link.runs()).toEqual(
      answered([
        {
          runId: 'run',
          procedureHash: 'hash',
          procedureId: 'test-machine',
          machine: 'Freezer 1',
          startedAt: NOW,
          lastAt: NOW,
          operator: 'Ada',
          open: true
        }
      ])
    )
  })

  test('sent again are stored once, and the sender may forget them', async () => {
    await link.send([started])
    expect(await link.send([started, paused])).toEqual(answered({ stored: [started.id, paused.id], rejected: [] }))
    expect(await link.events('run', 0)).toEqual(answered({ events: [started, paused], position: 2 }))
  })

  test('that the server will never take are told one by one', async () => {
    await link.send([started])
    const answer = await link.send([{ ...started, by: 'Ben' }, { ...paused, seq: 0 }, paused])
    expect(answer).toEqual(
      answered({
        stored: [paused.id],
        rejected: expect.arrayContaining([
          { id: started.id, why: expect.stringContaining('kept already') },
          { id: paused.id, why: expect.stringContaining('seq') }
        ])
      })
    )
  })

  test('of a run nobody knows are none', async () => {
    expect(await link.events('nobody', 0)).toEqual(answered({ events: [], position: 0 }))
  })

  test('of a run with any name find their way', async () => {
    const event: RunEvent = { ...started, runId: 'a/../b?c=%2e#d é' }
    await link.send([event])
    expect(await link.events(event.runId, 0)).toEqual(answered({ events: [event], position: 1 }))
  })

  test('in any number and size go in parts that the server takes', async () => {
    const leaks = Array.from({ length: 1200 }, (_, index) =>
      stamp({ type: 'problem-reported', lane: 'left', text: '漏'.repeat(index % 2000) })
    )
    const many = [stamp(STARTED), ...leaks]
    const receipt = await link.send(many)
    expect(receipt).toEqual(answered({ stored: many.map(({ id }) => id), rejected: [] }))
    expect(await link.events('run', 0)).toEqual(answered({ events: many, position: many.length }))
  })
})

describe('a server out of order', () => {
  const broken = (failing: Partial<Records>) => anApp({ records: { ...memoryRecords(), ...failing } })

  test('whose disk is full says so', async () => {
    shop = broken({ addEvents: async () => ({ kind: 'no-room' }) })
    expect(await link.send([started])).toMatchObject({
      kind: 'failed',
      failure: { kind: 'failing', status: 507, title: 'The disk is full' }
    })
  })

  test('whose store fails says so, and only its own log says why', async () => {
    const failing = broken({ addEvents: () => Promise.reject(new Error('the store is on fire')) })
    shop = failing
    expect(await link.send([started])).toMatchObject({ kind: 'failed', failure: { kind: 'failing', status: 500 } })
    expect(failing.logged.join()).toContain('the store is on fire')
    shop = anApp()
  })

  test('that holds an event this page cannot read does not give a run with holes', async () => {
    const unknown = { ...paused, type: 'from-the-future' } as unknown as RunEvent
    shop = broken({ eventsAfter: async () => ({ events: [started, unknown], position: 2 }) })
    expect(await link.events('run', 0)).toMatchObject({ kind: 'failed', failure: { kind: 'not-understood' } })
  })
})
