/** How long the lists take with a year of one shop in the store: two runs a day, 400 events each. */
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { canonicalJson } from '../../server/procedures/content-hash.ts'
import { openDatabase } from '../../server/storage/open-database.ts'
import { sqliteRecords } from '../../server/storage/sqlite-records.ts'
import type { Schedule } from '../../src/core/due/schedule.ts'
import type { RunEvent } from '../../src/core/run/event.ts'
import { anApp } from '../helpers/an-app.ts'
import { closedRun, publishSmall } from '../helpers/closed-run.ts'
import { median, percentile, type Figure } from './report.ts'

const RUNS = 730
const EVENTS = 400
const ROUNDS = 15
const BEGUN = 1_760_000_000_000
const HALF_A_DAY_MS = 43_200_000

const schedule: Schedule = {
  duties: [
    {
      kind: 'every',
      procedure: 'test-machine',
      everySeconds: 86_400,
      otherwise: 'overdue',
      ...{ source: 'The manual', edition: 'not dated', status: 'memory' }
    }
  ]
}

/** A real run, and hands that are sent to and fro until there are as many events as in a long one. */
function longRun(number: number): readonly RunEvent[] {
  const events = closedRun(`run-${number}`, BEGUN + number * HALF_A_DAY_MS)
  const [started] = events
  if (!started) throw new Error('A run has events.')
  const { runId, at, device } = started
  const calls = Array.from({ length: EVENTS - events.length }, (_, index): RunEvent => ({
    ...{ id: `${runId}-call-${index}`, runId, at: at + 1, deviceAt: at + 1, device, seq: 1000 + index, by: 'Ada' },
    ...{ via: 'app', type: 'lane-called', lane: index % 2 === 0 ? 'left' : 'right' }
  }))
  return [...events, ...calls]
}

export async function benchLists(): Promise<readonly Figure[]> {
  const folder = mkdtempSync(join(tmpdir(), 'sidecall-lists-'))
  const opened = openDatabase(folder)
  if (opened.kind === 'failed') throw new Error(opened.what)
  const records = sqliteRecords(opened.database)
  await publishSmall(records)
  for (let number = 0; number < RUNS; number += 1) {
    await records.addEvents(
      longRun(number).map((event) => ({ event, canonical: canonicalJson(event) })),
      BEGUN
    )
  }
  const { app } = anApp({ records, schedule, now: () => BEGUN + RUNS * HALF_A_DAY_MS })
  const figures: Figure[] = []
  for (const path of ['/api/runs', '/api/records', '/api/due', `/api/runs/run-${RUNS - 1}/events`]) {
    const times: number[] = []
    for (let round = 0; round < ROUNDS; round += 1) {
      const started = performance.now()
      const answer = await app.request(path)
      await answer.text()
      if (!answer.ok) throw new Error(`${path}: ${answer.status}`)
      times.push(performance.now() - started)
    }
    const how = `${RUNS} runs of ${EVENTS} events, ${ROUNDS} times, SQLite; first ${Math.round(times[0] ?? 0)} ms`
    figures.push({ name: `${path}, median`, value: median(times), unit: 'ms', atMost: 100, how })
    figures.push({ name: `${path}, p95`, value: percentile(times, 95), unit: 'ms', atMost: null, how })
  }
  await records.close()
  rmSync(folder, { recursive: true, force: true })
  return figures
}
