/** Events accepted durably by the real app, next to bare SQLite inserts of the same rows in the same run. */
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { v7 as uuidv7 } from 'uuid'
import { createApp } from '../../server/app.ts'
import { NO_SCHEDULE } from '../../src/core/due/schedule.ts'
import { passingSigner } from '../../server/signing/signing-key.ts'
import { createLive } from '../../server/live.ts'
import { openDatabase } from '../../server/storage/open-database.ts'
import { sqliteAccounts } from '../../server/storage/sqlite-accounts.ts'
import { cheapSecrets } from '../helpers/memory-accounts.ts'
import { sqliteRecords } from '../../server/storage/sqlite-records.ts'
import type { RunEvent } from '../../src/core/run/event.ts'
import { counting, STARTED } from '../helpers/stamping.ts'
import { median, type Figure } from './report.ts'
import { Sqlite } from '../../server/storage/sqlite-engine.ts'

/** Many, since other programs disturb each of them. */
const ROUNDS = 25

function events(count: number, round: number): readonly RunEvent[] {
  const started = counting()(1_790_000_000_000)(STARTED)
  const steps = Array.from({ length: count - 1 }, (_, index): RunEvent => ({
    id: `event-${round}-${index}`,
    runId: `run-${round}`,
    at: 1_790_000_000_000 + index * 1000,
    deviceAt: 1_790_000_000_000 + index * 1000,
    device: 'tablet',
    seq: index + 1,
    by: 'Ada',
    via: 'voice',
    type: 'step-done',
    lane: 'left',
    step: 'rinse-fill',
    round: 1,
    confirmation: 'everyday'
  }))
  return [{ ...started, id: `start-${round}`, runId: `run-${round}` }, ...steps]
}

/** Seconds for each way of storing the same events, one after the other in each round so that noise hits both. */
async function compare(
  batch: number,
  batches: number
): Promise<{ readonly perSecond: number; readonly bare: number; readonly share: number }> {
  const folder = mkdtempSync(join(tmpdir(), 'sidecall-bench-'))
  const opened = openDatabase(folder)
  if (opened.kind === 'failed') throw new Error(opened.what)
  const app = createApp({
    speech: null,
    voices: null,
    schedule: NO_SCHEDULE,
    signer: passingSigner(),
    newId: () => uuidv7(),
    records: sqliteRecords(opened.database),
    accounts: sqliteAccounts(opened.database, cheapSecrets()),
    faults: [],
    rules: { chosen: null, shelf: [] },
    live: createLive(),
    now: () => 0,
    pageFolder: null,
    log: console.error
  })
  const plain = new Sqlite(join(folder, 'bare.db'))
  plain.pragma('journal_mode = WAL')
  plain.pragma('synchronous = FULL')
  plain.exec(
    'CREATE TABLE events (position INTEGER PRIMARY KEY AUTOINCREMENT, id TEXT NOT NULL UNIQUE, body TEXT NOT NULL) STRICT'
  )
  const insert = plain.prepare('INSERT INTO events (id, body) VALUES (?, ?)')
  const insertAll = plain.transaction((rows: readonly RunEvent[]) => {
    for (const row of rows) insert.run(row.id, JSON.stringify(row))
  })
  const ours: number[] = []
  const bare: number[] = []
  for (let round = 0; round < ROUNDS; round += 1) {
    const all = events(batch * batches, round)
    const parts = Array.from({ length: batches }, (_, index) => all.slice(index * batch, (index + 1) * batch))
    const bodies = parts.map((part) => JSON.stringify({ events: part }))
    const perSecond = async (work: () => void | Promise<void>): Promise<number> => {
      const started = performance.now()
      await work()
      return (batch * batches * 1000) / (performance.now() - started)
    }
    const barely = async () => bare.push(await perSecond(() => parts.forEach((part) => insertAll(part))))
    // Neither always comes when the disk is still busy with the other.
    if (round % 2 === 0) await barely()
    ours.push(
      await perSecond(async () => {
        for (const body of bodies) {
          const answer = await app.request('/api/events', {
            method: 'POST',
            // As browsers send it.
            headers: { 'content-type': 'application/json', 'content-length': String(Buffer.byteLength(body)) },
            body
          })
          if (!answer.ok) throw new Error(await answer.text())
        }
      })
    )
    if (round % 2 === 1) await barely()
  }
  opened.database.close()
  plain.close()
  rmSync(folder, { recursive: true, force: true })
  const shares = ours.map((rate, round) => rate / (bare[round] ?? Number.NaN))
  return { perSecond: median(ours), bare: median(bare), share: median(shares) }
}

export async function benchEvents(): Promise<readonly Figure[]> {
  const single = await compare(1, 40)
  const batched = await compare(200, 10)
  const shareHow = `median of the shares of ${ROUNDS} rounds`
  const how = `median of ${ROUNDS}, through the app, FULL durability`
  return [
    { name: 'events one by one', value: single.perSecond, unit: 'per s', atMost: null, how },
    { name: 'bare inserts one by one', value: single.bare, unit: 'per s', atMost: null, how: 'same rows, same run' },
    { name: 'one by one, share of bare', value: single.share, unit: '', atMost: null, how: shareHow },
    { name: 'events in batches of 200', value: batched.perSecond, unit: 'per s', atMost: null, how },
    {
      name: 'bare inserts in batches of 200',
      value: batched.bare,
      unit: 'per s',
      atMost: null,
      how: 'same rows, same run'
    },
    {
      name: 'batches, share of bare',
      value: batched.share,
      unit: '',
      atMost: null,
      atLeast: 0.6,
      how: shareHow
    }
  ]
}
