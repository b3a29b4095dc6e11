/** Records in SQLite: all the SQL there is. */
import type { Procedure } from '../../src/core/procedure/procedure.ts'
import type { RunEvent } from '../../src/core/run/event.ts'
import { eventAdder } from './add-events.ts'
import type { ChainEntry, ProcedureVersion, Records, StoredProcedure, TimeAnchor } from './records.ts'
import { rowOf } from './run-row.ts'
import { listedIn, type RunColumns } from './run-rows.ts'
import type { SqliteConnection } from './sqlite-engine.ts'
import { sqliteWorkshop } from './sqlite-workshop.ts'

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
    `SELECT hash, canonical FROM current_procedures JOIN procedures USING (hash)
    WHERE current_procedures.id NOT IN (SELECT id FROM put_away) ORDER BY current_procedures.id`
  )
  const byHash = database.prepare<[string], { canonical: string }>('SELECT canonical FROM procedures WHERE hash = ?')
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
  const eventsAfter = database.prepare<[string, number], { position: number; canonical: string }>(
    'SELECT position, canonical FROM events WHERE run_id = ? AND position > ? ORDER BY position'
  )
  const begun = database.prepare<[string], { run_id: string }>(
    'SELECT run_id FROM runs WHERE started IS NOT NULL AND run_id IN (SELECT value FROM json_each(?))'
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

  const addEvents = eventAdder(database)

  return {
    ...sqliteWorkshop(database, { insert, makeCurrent: (id, hash) => void makeCurrent.run(id, hash) }),
    publish: async (version, at) => publish(version, at),
    keepCurrent: async (ids) => void keepCurrent.run(JSON.stringify(ids)),
    currentProcedures: async () =>
      current
        .all()
        .map(({ hash, canonical }): StoredProcedure => ({ hash, procedure: JSON.parse(canonical) as Procedure })),
    procedure: async (hash) => byHash.get(hash)?.canonical ?? null,
    begun: async (runIds) => new Set(begun.all(JSON.stringify(runIds)).map(({ run_id: runId }) => runId)),
    addEvents: async (events, receivedAt) => addEvents(events, receivedAt),
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
