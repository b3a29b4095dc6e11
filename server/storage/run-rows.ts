/** What a list shows of each run, kept as a row so that lists need no replay. */
import { UNHEARD_OF, type ListedRun } from '../../src/core/run/listed-run.ts'
import type { SqliteConnection } from './sqlite-engine.ts'

export interface RunColumns {
  readonly run_id: string
  readonly started: string | null
  readonly crew_changes: string
  readonly last_at: number
  readonly open: number
  readonly ended: string | null
  readonly entries: number
  readonly signed: string
}

export interface RunRows {
  read(runId: string): ListedRun
  put(runId: string, run: ListedRun): void
}

export function runRows(database: SqliteConnection): RunRows {
  const byId = database.prepare<[string], RunColumns>('SELECT * FROM runs WHERE run_id = ?')
  const putRow = database.prepare(
    'INSERT OR REPLACE INTO runs (run_id, started, crew_changes, last_at, open, ended, entries, signed) VALUES (?, ?, ?, ?, ?, ?, ?, ?)'
  )
  return {
    read: (runId) => listedIn(byId.get(runId)),
    put(runId, { started, crewChanges, lastAt, open, ended, entries, signed }) {
      putRow.run(
        ...[runId, started && JSON.stringify(started), JSON.stringify(crewChanges), lastAt, open ? 1 : 0],
        ...[ended && JSON.stringify(ended), entries, JSON.stringify(signed)]
      )
    }
  }
}

export function listedIn(columns: RunColumns | undefined): ListedRun {
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
