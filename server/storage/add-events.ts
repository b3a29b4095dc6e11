/**
 * Adds events to the store, many rows to a statement. All are taken to be new; where one is not, the store says so, and
 * the batch is sorted first. A device sends again only what it has no answer for, so that seldom happens.
 */
import { listedWith, type ListedRun } from '../../src/core/run/listed-run.ts'
import { chained, NOTHING_CHAINED, type ChainEnd } from './chained.ts'
import type { AddedEvents, IncomingEvent } from './records.ts'
import { realEnds } from './real-ends.ts'
import { runRows } from './run-rows.ts'
import { Sqlite, type SqliteConnection } from './sqlite-engine.ts'

const COLUMNS = ['id', 'run_id', 'type', 'canonical', 'received_at', 'site', 'place', 'link']
const ROWS_AT_ONCE = 50

type Value = string | number

export function eventAdder(database: SqliteConnection): (events: readonly IncomingEvent[], at: number) => AddedEvents {
  const rowsOf = (count: number): string =>
    Array<string>(count)
      .fill(`(${COLUMNS.map(() => '?').join(', ')})`)
      .join(', ')
  const insert = (count: number) =>
    database.prepare<Value[]>(`INSERT INTO events (${COLUMNS.join(', ')}) VALUES ${rowsOf(count)}`)
  const insertMany = insert(ROWS_AT_ONCE)
  const insertOne = insert(1)
  const knownOf = database.prepare<[string], { id: string; canonical: string }>(
    'SELECT id, canonical FROM events WHERE id IN (SELECT value FROM json_each(?))'
  )
  const chainEnd = database.prepare<[string], ChainEnd>('SELECT place, link FROM chains WHERE site = ?')
  const putChainEnd = database.prepare('INSERT OR REPLACE INTO chains (site, place, link) VALUES (?, ?, ?)')
  const runs = runRows(database)
  const withRealEnd = realEnds(database)

  /** Returns the position of the last. */
  function insertAll(values: readonly Value[]): number {
    let last = 0
    let done = 0
    for (const [statement, rows] of [[insertMany, ROWS_AT_ONCE] as const, [insertOne, 1] as const]) {
      const size = rows * COLUMNS.length
      for (; done + size <= values.length; done += size)
        last = Number(statement.run(...values.slice(done, done + size)).lastInsertRowid)
    }
    return last
  }

  function add(events: readonly IncomingEvent[], receivedAt: number, known: ReadonlyMap<string, string>): AddedEvents {
    const { fresh, stored, conflicting } = sorted(events, known)
    const values: Value[] = []
    const listed = new Map<string, ListedRun>()
    const lastOf = new Map<string, number>()
    const ends = new Map<string, ChainEnd>()
    for (const [index, { event, canonical }] of fresh.entries()) {
      const { id, runId, type } = event
      const run = listedWith(listed.get(runId) ?? runs.read(runId), event)
      const site = run.started?.site ?? ''
      const end = chained(site, canonical, receivedAt, ends.get(site) ?? chainEnd.get(site) ?? NOTHING_CHAINED)
      values.push(id, runId, type, canonical, receivedAt, site, end.place, end.link)
      listed.set(runId, run)
      lastOf.set(runId, index)
      ends.set(site, end)
    }
    const last = insertAll(values)
    for (const [site, { place, link }] of ends) putChainEnd.run(site, place, link)
    for (const [runId, run] of listed) runs.put(runId, withRealEnd(runId, run))
    return {
      kind: 'added',
      stored,
      conflicting,
      // Nobody else writes meanwhile, so they follow each other.
      positions: new Map([...lastOf].map(([runId, index]) => [runId, last - (fresh.length - 1 - index)]))
    }
  }

  const addAllNew = database.transaction((events: readonly IncomingEvent[], at: number) => add(events, at, new Map()))
  const addSome = database.transaction((events: readonly IncomingEvent[], at: number) => {
    const ids = JSON.stringify(events.map(({ event }) => event.id))
    return add(events, at, new Map(knownOf.all(ids).map(({ id, canonical }) => [id, canonical])))
  })

  return (events, at) => {
    try {
      return addAllNew.immediate(events, at)
    } catch (error) {
      if (!(error instanceof Sqlite.SqliteError)) throw error
      if (error.code === 'SQLITE_FULL') return { kind: 'no-room' }
      if (error.code !== 'SQLITE_CONSTRAINT_UNIQUE') throw error
    }
    try {
      return addSome.immediate(events, at)
    } catch (error) {
      if (error instanceof Sqlite.SqliteError && error.code === 'SQLITE_FULL') return { kind: 'no-room' }
      throw error
    }
  }
}

/** `known`: the canonical forms of what is there, by id. A batch may have an event twice, too. */
function sorted(events: readonly IncomingEvent[], known: ReadonlyMap<string, string>) {
  const seen = new Map(known)
  const fresh: IncomingEvent[] = []
  const stored: string[] = []
  const conflicting: string[] = []
  for (const incoming of events) {
    const { id } = incoming.event
    const there = seen.get(id)
    if (there === undefined) {
      seen.set(id, incoming.canonical)
      fresh.push(incoming)
    }
    ;(there === undefined || there === incoming.canonical ? stored : conflicting).push(id)
  }
  return { fresh, stored, conflicting }
}
