import { createHash } from 'node:crypto'
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { counting, STARTED } from '../../tests/helpers/stamping.ts'
import type { RunEvent } from '../../src/core/run/event.ts'
import { canonicalJson } from '../procedures/content-hash.ts'
import { MIGRATIONS } from './migrations.ts'
import { openDatabase, type Opened } from './open-database.ts'
import { sqliteRecords } from './sqlite-records.ts'
import type { SqliteConnection } from './sqlite-engine.ts'

let folder = ''
const file = () => join(folder, 'sidecall.db')
const contents = () => createHash('sha256').update(readFileSync(file())).digest('hex')

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'sidecall-migrations-'))
})
afterEach(() => rmSync(folder, { recursive: true, force: true }))

function database(opened: Opened): SqliteConnection {
  if (opened.kind === 'failed') throw new Error(opened.what)
  return opened.database
}

/** Every column of every table, and every index: what statements depend on. */
function shapeOf(store: SqliteConnection): unknown {
  const tables = store.prepare("SELECT name FROM main.sqlite_schema WHERE type = 'table' ORDER BY name").pluck().all()
  return tables.map((table) => ({
    table,
    columns: store.prepare('SELECT name, type, "notnull", pk FROM pragma_table_info(?) ORDER BY name').all(table),
    indexes: store.prepare('SELECT name, "unique" FROM pragma_index_list(?) ORDER BY name').all(table)
  }))
}

const earlier = MIGRATIONS.map((_, version) => version)

describe('a store of an earlier version', () => {
  test.each(earlier)('%i ends up in the shape of a fresh one', (version) => {
    database(openDatabase(folder, MIGRATIONS.slice(0, version))).close()
    const migrated = database(openDatabase(folder))
    const fresh = database(openDatabase(join(folder, 'fresh')))
    expect(shapeOf(migrated)).toEqual(shapeOf(fresh))
    expect(migrated.pragma('user_version', { simple: true })).toBe(MIGRATIONS.length)
    expect(migrated.pragma('integrity_check', { simple: true })).toBe('ok')
    expect(migrated.pragma('foreign_key_check')).toEqual([])
    migrated.close()
    fresh.close()
  })

  test('1 keeps its events, and its rows get the operator that the order of events gives', async () => {
    const old = database(openDatabase(folder, MIGRATIONS.slice(0, 1)))
    const stamp = counting()
    const [started, ben, cleo] = [
      stamp(5)(STARTED),
      stamp(6)({ type: 'handed-over', to: 'Ben' }),
      stamp(7)({ type: 'handed-over', to: 'Cleo' })
    ]
    const insert = old.prepare('INSERT INTO events (id, run_id, type, canonical, received_at) VALUES (?, ?, ?, ?, 9)')
    for (const event of [cleo, ben, started] as RunEvent[]) {
      insert.run(event.id, event.runId, event.type, canonicalJson(event))
    }
    // What version 1 wrote when Ben's event came last.
    old
      .prepare("INSERT INTO runs (run_id, started, operator, last_at, open) VALUES ('run', ?, 'Ben', 7, 1)")
      .run(JSON.stringify(started))
    old.close()

    const records = sqliteRecords(database(openDatabase(folder)))
    expect(await records.runs(10)).toMatchObject([
      { runId: 'run', started, operator: 'Cleo', lastAt: 7, open: true, ended: null, entries: 3 }
    ])
    expect((await records.eventsAfter('run', 0)).events).toEqual([cleo, ben, started])
    await records.close()
  })

  test("2 goes by everyone's coming and going from then on", async () => {
    const old = database(openDatabase(folder, MIGRATIONS.slice(0, 2)))
    const [tablet, phone] = [counting(), counting('phone')]
    const started = tablet(5)(STARTED)
    const joined = phone(6)({ type: 'joined', name: 'Eve' })
    const handedOver = phone(7)({ type: 'handed-over', to: 'Finn' })
    const insert = old.prepare('INSERT INTO events (id, run_id, type, canonical, received_at) VALUES (?, ?, ?, ?, 9)')
    for (const event of [handedOver, started, joined] as RunEvent[]) {
      insert.run(event.id, event.runId, event.type, canonicalJson(event))
    }
    old
      .prepare("INSERT INTO runs (run_id, started, handed_over, last_at, open) VALUES ('run', ?, ?, 7, 1)")
      .run(JSON.stringify(started), JSON.stringify(handedOver))
    old.close()

    const records = sqliteRecords(database(openDatabase(folder)))
    expect(await records.runs(10)).toMatchObject([{ runId: 'run', started, operator: 'Ada', lastAt: 7, open: true }])
    const left = phone(8)({ type: 'left', hands: 'tablet' })
    await records.addEvents([{ event: left, canonical: canonicalJson(left) }], 10)
    expect(await records.runs(10)).toMatchObject([{ operator: 'Finn', lastAt: 8 }])
    await records.close()
  })
})

test('events of a store without chains are chained in the order they came, and go on from there', async () => {
  const old = database(openDatabase(folder, MIGRATIONS.slice(0, 3)))
  const stamp = counting()
  const events = [
    stamp(4)({ type: 'paused' }),
    stamp(5)(STARTED),
    ...[6, 7].map((at) => stamp(at)({ type: 'resumed' }))
  ]
  const insert = old.prepare('INSERT INTO events (id, run_id, type, canonical, received_at) VALUES (?, ?, ?, ?, 9)')
  for (const event of events) insert.run(event.id, event.runId, event.type, canonicalJson(event))
  old
    .prepare("INSERT INTO runs (run_id, started, last_at, open) VALUES ('run', ?, 7, 1)")
    .run(JSON.stringify(events[1]))
  old.close()

  const records = sqliteRecords(database(openDatabase(folder)))
  const next = stamp(8)({ type: 'paused' })
  await records.addEvents([{ event: next, canonical: canonicalJson(next) }], 10)
  // The same events, taken by a store that has always had chains.
  const always = sqliteRecords(database(openDatabase(join(folder, 'always'))))
  await always.addEvents(
    events.map((event) => ({ event, canonical: canonicalJson(event) })),
    9
  )
  await always.addEvents([{ event: next, canonical: canonicalJson(next) }], 10)
  expect(await records.chainOfRun('run')).toEqual(await always.chainOfRun('run'))
  expect(await records.sites()).toEqual(await always.sites())
  await records.close()
  await always.close()
})

test('a step that fails leaves the version before it, whole', () => {
  const broken = [...MIGRATIONS, 'CREATE TABLE half (a TEXT) STRICT; INSERT INTO nowhere VALUES (1)']
  const opened = openDatabase(folder, broken)
  expect(opened).toMatchObject({ kind: 'failed', what: expect.stringContaining('nowhere') })
  const store = database(openDatabase(folder))
  expect(store.prepare("SELECT count(*) FROM sqlite_schema WHERE name = 'half'").pluck().get()).toBe(0)
  expect(store.pragma('user_version', { simple: true })).toBe(MIGRATIONS.length)
  store.close()
})

test('a store of a newer version is refused in words, byte for byte as it was', () => {
  database(openDatabase(folder, [...MIGRATIONS, 'CREATE TABLE later (a TEXT) STRICT'])).close()
  const before = contents()
  const opened = openDatabase(folder)
  expect(opened).toMatchObject({
    kind: 'failed',
    what: expect.stringContaining(
      `newer Sidecall (version ${MIGRATIONS.length + 1}, this one knows ${MIGRATIONS.length})`
    ),
    mend: expect.stringContaining('Start the newer program')
  })
  expect(contents()).toBe(before)
})
