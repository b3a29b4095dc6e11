/** The disk fills up: the store may not grow beyond so many pages. */
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { memoryAccounts } from '../../tests/helpers/memory-accounts.ts'
import { counting, STARTED } from '../../tests/helpers/stamping.ts'
import { v7 as uuidv7 } from 'uuid'
import { createApp } from '../app.ts'
import { NO_SCHEDULE } from '../../src/core/due/schedule.ts'
import { passingSigner } from '../signing/signing-key.ts'
import { createLive } from '../live.ts'
import { openDatabase } from './open-database.ts'
import { sqliteRecords } from './sqlite-records.ts'
import type { SqliteConnection } from './sqlite-engine.ts'

let folder = ''
let database: SqliteConnection
const logged: string[] = []

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'sidecall-full-'))
  const opened = openDatabase(folder)
  if (opened.kind === 'failed') throw new Error(opened.what)
  database = opened.database
})
afterEach(() => {
  database.close()
  rmSync(folder, { recursive: true, force: true })
})

test('a batch that does not fit is refused whole, told apart from other failures, and taken once there is room', async () => {
  const moved: unknown[] = []
  const live = createLive()
  live.listen(
    (move) => moved.push(move),
    () => {}
  )
  const app = createApp({
    speech: null,
    voices: null,
    schedule: NO_SCHEDULE,
    signer: passingSigner(),
    newId: () => uuidv7(),
    records: sqliteRecords(database),
    accounts: memoryAccounts(),
    faults: [],
    rules: { chosen: null, shelf: [] },
    live,
    now: () => 1000,
    pageFolder: null,
    log: (message) => logged.push(message)
  })
  const stamp = counting()(1000)
  const send = (events: readonly unknown[]) =>
    app.request('/api/events', {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ events })
    })
  const started = stamp(STARTED)
  expect((await send([started])).status).toBe(200)

  database.pragma(`main.max_page_count = ${String(database.pragma('main.page_count', { simple: true }))}`)
  const batch = Array.from({ length: 40 }, () =>
    stamp({ type: 'problem-reported', lane: 'left', text: 'x'.repeat(1500) })
  )
  const refused = await send(batch)
  expect(refused.status).toBe(507)
  expect(refused.headers.get('content-type')).toBe('application/problem+json')
  expect(await refused.json()).toEqual({
    type: 'about:blank',
    title: 'The disk is full',
    status: 507,
    detail: 'Nothing was stored by this request. Make room on the server and try again.'
  })
  expect(await (await app.request('/api/runs/run/events')).json()).toMatchObject({ events: [started], position: 1 })
  expect(await (await app.request('/api/runs')).json()).toMatchObject({ runs: [{ lastAt: 1000, operator: 'Ada' }] })
  expect(moved).toEqual([{ runId: 'run', position: 1 }])

  database.pragma('main.max_page_count = 100000')
  expect(await (await send(batch)).json()).toEqual({ stored: batch.map(({ id }) => id), rejected: [] })
  expect(database.pragma('integrity_check', { simple: true })).toBe('ok')
  expect(logged).toEqual([])
})
