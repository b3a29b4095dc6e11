/** Records in SQLite: all the SQL there is. */
import type Database from 'better-sqlite3'
import type { Procedure } from '../../src/core/procedure/procedure.ts'
import type { RunEvent } from '../../src/core/run/event.ts'
import type { AddedEvents, IncomingEvent, ProcedureVersion, Records, RunRow, StoredProcedure, TimeAnchor } from './records.ts'
import { NO_RUN, withEvent, type RunSummary } from './run-row.ts'

interface RunColumns {
  readonly run_id: string
  readonly started: string | null
  readonly operator: string
  readonly last_at: number
  readonly open: number
}

const TIME_ANCHOR = 'time-anchor'

export function sqliteRecords(database: Database.Database): Records {
  const insertProcedure = database.prepare('INSERT INTO procedures (hash, id, canonical, source, published_at) VALUES (?, ?, ?, ?, ?) ON CONFLICT (hash) DO NOTHING')
  const makeCurrent = database.prepare('INSERT INTO current_procedures (id, hash) VALUES (?, ?) ON CONFLICT (id) DO UPDATE SET hash = excluded.hash')
  const current = database.prepare<[], { hash: string; canonical: string }>('SELECT hash, canonical FROM current_procedures JOIN procedures USING (hash) ORDER BY procedures.id')
  const byHash = database.prepare<[string], { canonical: string }>('SELECT canonical FROM procedures WHERE hash = ?')
  const insertEvent = database.prepare('INSERT INTO events (id, run_id, type, canonical, received_at) VALUES (?, ?, ?, ?, ?) ON CONFLICT (id) DO NOTHING')
  const eventById = database.prepare<[string], { canonical: string }>('SELECT canonical FROM events WHERE id = ?')
  const eventsAfter = database.prepare<[string, number], { position: number; canonical: string }>('SELECT position, canonical FROM events WHERE run_id = ? AND position > ? ORDER BY position LIMIT 5000')
  const runById = database.prepare<[string], RunColumns>('SELECT * FROM runs WHERE run_id = ?')
  const putRun = database.prepare('INSERT INTO runs (run_id, started, operator, last_at, open) VALUES (?, ?, ?, ?, ?) ON CONFLICT (run_id) DO UPDATE SET started = excluded.started, operator = excluded.operator, last_at = excluded.last_at, open = excluded.open')
  const lastRuns = database.prepare<[number], RunColumns>('SELECT * FROM runs WHERE started IS NOT NULL ORDER BY last_at DESC LIMIT ?')
  const anyOpen = database.prepare<[], { run_id: string }>('SELECT run_id FROM runs WHERE open = 1 AND started IS NOT NULL LIMIT 1')
  const fact = database.prepare<[string], { value: string }>('SELECT value FROM facts WHERE name = ?')
  const putFact = database.prepare('INSERT INTO facts (name, value) VALUES (?, ?) ON CONFLICT (name) DO UPDATE SET value = excluded.value')

  const publish = database.transaction((version: ProcedureVersion, at: number) => {
    insertProcedure.run(version.hash, version.procedure.id, version.canonical, version.source, at)
    makeCurrent.run(version.procedure.id, version.hash)
  })

  const addEvents = database.transaction((events: readonly IncomingEvent[], receivedAt: number): AddedEvents => {
    const stored: string[] = []
    const conflicting: string[] = []
    const positions = new Map<string, number>()
    const rows = new Map<string, RunSummary>()
    for (const { event, canonical } of events) {
      const added = insertEvent.run(event.id, event.runId, event.type, canonical, receivedAt)
      if (added.changes === 0) {
        const same = eventById.get(event.id)?.canonical === canonical
        ;(same ? stored : conflicting).push(event.id)
        continue
      }
      stored.push(event.id)
      positions.set(event.runId, Number(added.lastInsertRowid))
      rows.set(event.runId, withEvent(rows.get(event.runId) ?? summaryOf(runById.get(event.runId)), event))
    }
    for (const [runId, row] of rows) putRun.run(runId, row.started && JSON.stringify(row.started), row.operator, row.lastAt, row.open ? 1 : 0)
    return { stored, conflicting, positions }
  })

  return {
    publish: async (version, at) => publish(version, at),
    currentProcedures: async () => current.all().map(({ hash, canonical }): StoredProcedure => ({ hash, procedure: JSON.parse(canonical) as Procedure })),
    procedure: async (hash) => byHash.get(hash)?.canonical ?? null,
    addEvents: async (events, receivedAt) => addEvents.immediate(events, receivedAt),
    eventsAfter: async (runId, position) => {
      const rows = eventsAfter.all(runId, position)
      return { events: rows.map(({ canonical }) => JSON.parse(canonical) as RunEvent), position: rows.at(-1)?.position ?? position }
    },
    runs: async (limit) => lastRuns.all(limit).flatMap(rowOf),
    hasOpenRuns: async () => anyOpen.get() !== undefined,
    timeAnchor: async () => {
      const kept = fact.get(TIME_ANCHOR)
      return kept ? (JSON.parse(kept.value) as TimeAnchor) : null
    },
    keepTimeAnchor: async (anchor) => void putFact.run(TIME_ANCHOR, JSON.stringify(anchor)),
    close: async () => {
      database.pragma('wal_checkpoint(TRUNCATE)')
      database.close()
    }
  }
}

function summaryOf(columns: RunColumns | undefined): RunSummary {
  if (!columns) return NO_RUN
  const started = columns.started === null ? null : (JSON.parse(columns.started) as RunSummary['started'])
  return { started, operator: columns.operator, lastAt: columns.last_at, open: columns.open === 1 }
}

function rowOf(columns: RunColumns): readonly RunRow[] {
  const { started, operator, lastAt, open } = summaryOf(columns)
  return started ? [{ runId: columns.run_id, started, operator, lastAt, open }] : []
}
