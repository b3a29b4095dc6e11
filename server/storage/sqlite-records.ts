/** Records in SQLite: all the SQL there is. */
import type { Procedure } from '../../src/core/procedure/procedure.ts'
import type { RunEvent } from '../../src/core/run/event.ts'
import { listedWith, UNHEARD_OF, type ListedRun } from '../../src/core/run/listed-run.ts'
import { chained, NOTHING_CHAINED, type ChainEnd } from './chained.ts'
import type {
  AddedEvents,
  ChainEntry,
  IncomingEvent,
  ProcedureVersion,
  Records,
  StoredProcedure,
  TimeAnchor
} from './records.ts'
import { rowOf } from './run-row.ts'
import { Sqlite, type SqliteConnection } from './sqlite-engine.ts'
import { sqliteWorkshop } from './sqlite-workshop.ts'

interface RunColumns {
  readonly run_id: string
  readonly started: string | null
  readonly crew_changes: string
  readonly last_at: number
  readonly open: number
  readonly ended: string | null
  readonly entries: number
  readonly signed: string
}

const TIME_ANCHOR = 'time-anchor'
const CHAIN_COLUMNS = 'position, site, place, run_id AS runId, canonical, received_at AS receivedAt, link'

export function sqliteRecords(database: SqliteConnection): Records {
  const insertProcedure = database.prepare(
    'INSERT INTO procedures (hash, id, canonical, source, published_at) VALUES (?, ?, ?, ?, ?) ON CONFLICT (hash) DO NOTHING'
  )
  // Writes nothing when nothing changes, so that a full disk does not keep the server from starting.
  const makeCurrent = database.prepare(
    'INSERT INTO current_procedures (id, hash) VALUES (?, ?) ON CONFLICT (id) DO UPDATE SET hash = excluded.hash WHERE hash <> excluded.hash'
  )
  const keepCurrent = database.prepare(
    'DELETE FROM current_procedures WHERE id NOT IN (SELECT value FROM json_each(?))'
  )
  const current = database.prepare<[], { hash: string; canonical: string }>(
    'SELECT hash, canonical FROM current_procedures JOIN procedures USING (hash) ORDER BY current_procedures.id'
  )
  const byHash = database.prepare<[string], { canonical: string }>('SELECT canonical FROM procedures WHERE hash = ?')
  const insertEvent = database.prepare(
    'INSERT INTO events (id, run_id, type, canonical, received_at, site, place, link) VALUES (?, ?, ?, ?, ?, ?, ?, ?) ON CONFLICT (id) DO NOTHING'
  )
  const chainEnd = database.prepare<[string], ChainEnd>('SELECT place, link FROM chains WHERE site = ?')
  const putChainEnd = database.prepare('INSERT OR REPLACE INTO chains (site, place, link) VALUES (?, ?, ?)')
  const chainOfRun = database.prepare<[string], ChainEntry>(
    `SELECT ${CHAIN_COLUMNS} FROM events WHERE run_id = ? ORDER BY position`
  )
  const chainOfSite = database.prepare<[number, number, string], ChainEntry>(
    `SELECT ${CHAIN_COLUMNS} FROM events WHERE position BETWEEN ? AND ? AND site = ? ORDER BY position`
  )
  const linkBefore = database.prepare<[number, string], { link: string }>(
    'SELECT link FROM events WHERE position < ? AND site = ? ORDER BY position DESC LIMIT 1'
  )
  const sites = database.prepare<[], { site: string; places: number }>(
    'SELECT site, place AS places FROM chains ORDER BY site'
  )
  const eventById = database.prepare<[string], { canonical: string }>('SELECT canonical FROM events WHERE id = ?')
  const eventsAfter = database.prepare<[string, number], { position: number; canonical: string }>(
    'SELECT position, canonical FROM events WHERE run_id = ? AND position > ? ORDER BY position'
  )
  const runById = database.prepare<[string], RunColumns>('SELECT * FROM runs WHERE run_id = ?')
  const putRun = database.prepare(
    'INSERT OR REPLACE INTO runs (run_id, started, crew_changes, last_at, open, ended, entries, signed) VALUES (?, ?, ?, ?, ?, ?, ?, ?)'
  )
  const lastRuns = database.prepare<[number], RunColumns>(
    'SELECT * FROM runs WHERE started IS NOT NULL ORDER BY last_at DESC, run_id LIMIT ?'
  )
  const anyOpen = database.prepare<[number], { run_id: string }>(
    'SELECT run_id FROM runs JOIN events USING (run_id) WHERE open = 1 AND received_at >= ? LIMIT 1'
  )
  const fact = database.prepare<[string], { value: string }>('SELECT value FROM facts WHERE name = ?')
  const putFact = database.prepare('INSERT OR REPLACE INTO facts (name, value) VALUES (?, ?)')

  const insert = ({ hash, procedure, canonical, source }: ProcedureVersion, at: number) =>
    void insertProcedure.run(hash, procedure.id, canonical, source, at)
  const publish = database.transaction((version: ProcedureVersion, at: number) => {
    insert(version, at)
    makeCurrent.run(version.procedure.id, version.hash)
  })

  const addEvents = database.transaction((events: readonly IncomingEvent[], receivedAt: number): AddedEvents => {
    const stored: string[] = []
    const conflicting: string[] = []
    const positions = new Map<string, number>()
    const rows = new Map<string, ListedRun>()
    const ends = new Map<string, ChainEnd>()
    for (const { event, canonical } of events) {
      const run = listedWith(rows.get(event.runId) ?? listedIn(runById.get(event.runId)), event)
      const site = run.started?.site ?? ''
      const end = chained(site, canonical, receivedAt, ends.get(site) ?? chainEnd.get(site) ?? NOTHING_CHAINED)
      const added = insertEvent.run(event.id, event.runId, event.type, canonical, receivedAt, site, end.place, end.link)
      if (added.changes === 0) {
        const same = eventById.get(event.id)?.canonical === canonical
        ;(same ? stored : conflicting).push(event.id)
        continue
      }
      stored.push(event.id)
      positions.set(event.runId, Number(added.lastInsertRowid))
      rows.set(event.runId, run)
      ends.set(site, end)
    }
    for (const [site, { place, link }] of ends) putChainEnd.run(site, place, link)
    for (const [runId, { started, crewChanges, lastAt, open, ended, entries, signed }] of rows) {
      putRun.run(
        ...[runId, started && JSON.stringify(started), JSON.stringify(crewChanges), lastAt, open ? 1 : 0],
        ...[ended && JSON.stringify(ended), entries, JSON.stringify(signed)]
      )
    }
    const unbegun = [...rows].flatMap(([runId, { started }]) => (started ? [] : [runId]))
    return { kind: 'added', stored, conflicting, positions, unbegun }
  })

  return {
    ...sqliteWorkshop(database, { insert, makeCurrent: (id, hash) => void makeCurrent.run(id, hash) }),
    publish: async (version, at) => publish(version, at),
    keepCurrent: async (ids) => void keepCurrent.run(JSON.stringify(ids)),
    currentProcedures: async () =>
      current
        .all()
        .map(({ hash, canonical }): StoredProcedure => ({ hash, procedure: JSON.parse(canonical) as Procedure })),
    procedure: async (hash) => byHash.get(hash)?.canonical ?? null,
    async addEvents(events, receivedAt) {
      try {
        return addEvents.immediate(events, receivedAt)
      } catch (error) {
        if (error instanceof Sqlite.SqliteError && error.code === 'SQLITE_FULL') return { kind: 'no-room' }
        throw error
      }
    },
    eventsAfter: async (runId, position) => {
      const rows = eventsAfter.all(runId, position)
      return {
        events: rows.map(({ canonical }) => JSON.parse(canonical) as RunEvent),
        position: rows.at(-1)?.position ?? position
      }
    },
    chainOfRun: async (runId) => chainOfRun.all(runId),
    chainOfSite: async (site, from, to) => chainOfSite.all(from, to, site),
    linkBefore: async (site, position) => linkBefore.get(position, site)?.link ?? null,
    sites: async () => sites.all(),
    runs: async (limit) => lastRuns.all(limit).flatMap((columns) => rowOf(columns.run_id, listedIn(columns))),
    hasOpenRuns: async (receivedSince) => anyOpen.get(receivedSince) !== undefined,
    timeAnchor: async () => {
      const kept = fact.get(TIME_ANCHOR)
      return kept ? (JSON.parse(kept.value) as TimeAnchor) : null
    },
    keepTimeAnchor: async (anchor) => void putFact.run(TIME_ANCHOR, JSON.stringify(anchor)),
    close: async () => void database.close()
  }
}

function listedIn(columns: RunColumns | undefined): ListedRun {
  if (!columns) return UNHEARD_OF
  return {
    started: columns.started === null ? null : (JSON.parse(columns.started) as ListedRun['started']),
    crewChanges: JSON.parse(columns.crew_changes) as ListedRun['crewChanges'],
    lastAt: columns.last_at,
    open: columns.open === 1,
    ended: columns.ended === null ? null : (JSON.parse(columns.ended) as ListedRun['ended']),
    entries: columns.entries,
    signed: JSON.parse(columns.signed) as ListedRun['signed']
  }
}
