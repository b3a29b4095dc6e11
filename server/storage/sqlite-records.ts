/** Records in SQLite: all the SQL there is. */
import type { Procedure } from '../../src/core/procedure/procedure.ts'
import type { RunEvent } from '../../src/core/run/event.ts'
import { listedWith, UNHEARD_OF, type ListedRun } from '../../src/core/run/listed-run.ts'
import type { AddedEvents, IncomingEvent, ProcedureVersion, Records, StoredProcedure, TimeAnchor } from './records.ts'
import { rowOf } from './run-row.ts'
import { Sqlite, type SqliteConnection } from './sqlite-engine.ts'

interface RunColumns {
  readonly run_id: string
  readonly started: string | null
  readonly crew_changes: string
  readonly last_at: number
  readonly open: number
}

const TIME_ANCHOR = 'time-anchor'

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
    'INSERT INTO events (id, run_id, type, canonical, received_at) VALUES (?, ?, ?, ?, ?) ON CONFLICT (id) DO NOTHING'
  )
  const eventById = database.prepare<[string], { canonical: string }>('SELECT canonical FROM events WHERE id = ?')
  const eventsAfter = database.prepare<[string, number], { position: number; canonical: string }>(
    'SELECT position, canonical FROM events WHERE run_id = ? AND position > ? ORDER BY position'
  )
  const runById = database.prepare<[string], RunColumns>('SELECT * FROM runs WHERE run_id = ?')
  const putRun = database.prepare(
    'INSERT OR REPLACE INTO runs (run_id, started, crew_changes, last_at, open) VALUES (?, ?, ?, ?, ?)'
  )
  const lastRuns = database.prepare<[number], RunColumns>(
    'SELECT * FROM runs WHERE started IS NOT NULL ORDER BY last_at DESC, run_id LIMIT ?'
  )
  const anyOpen = database.prepare<[number], { run_id: string }>(
    'SELECT run_id FROM runs JOIN events USING (run_id) WHERE open = 1 AND received_at >= ? LIMIT 1'
  )
  const fact = database.prepare<[string], { value: string }>('SELECT value FROM facts WHERE name = ?')
  const putFact = database.prepare('INSERT OR REPLACE INTO facts (name, value) VALUES (?, ?)')

  const publish = database.transaction((version: ProcedureVersion, at: number) => {
    insertProcedure.run(version.hash, version.procedure.id, version.canonical, version.source, at)
    makeCurrent.run(version.procedure.id, version.hash)
  })

  const addEvents = database.transaction((events: readonly IncomingEvent[], receivedAt: number): AddedEvents => {
    const stored: string[] = []
    const conflicting: string[] = []
    const positions = new Map<string, number>()
    const rows = new Map<string, ListedRun>()
    for (const { event, canonical } of events) {
      const added = insertEvent.run(event.id, event.runId, event.type, canonical, receivedAt)
      if (added.changes === 0) {
        const same = eventById.get(event.id)?.canonical === canonical
        ;(same ? stored : conflicting).push(event.id)
        continue
      }
      stored.push(event.id)
      positions.set(event.runId, Number(added.lastInsertRowid))
      rows.set(event.runId, listedWith(rows.get(event.runId) ?? listedIn(runById.get(event.runId)), event))
    }
    for (const [runId, { started, crewChanges, lastAt, open }] of rows) {
      putRun.run(runId, started && JSON.stringify(started), JSON.stringify(crewChanges), lastAt, open ? 1 : 0)
    }
    return { kind: 'added', stored, conflicting, positions }
  })

  return {
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
    open: columns.open === 1
  }
}
