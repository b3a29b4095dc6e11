/** Chains the events of a store that was written before there were chains. */
import type { RunEvent } from '../../src/core/run/event.ts'
import { chained, NOTHING_CHAINED, type ChainEnd } from './chained.ts'
import type { SqliteConnection } from './sqlite-engine.ts'

interface Row {
  readonly position: number
  readonly run_id: string
  readonly canonical: string
  readonly received_at: number
}

/** An event that came before its run had begun belongs to no site, as it would have been when it came. */
export function chainEverything(database: SqliteConnection): void {
  const rows = database.prepare<[number], Row>(
    'SELECT position, run_id, canonical, received_at FROM events WHERE position > ? ORDER BY position LIMIT 1000'
  )
  const put = database.prepare('UPDATE events SET site = ?, place = ?, link = ? WHERE position = ?')
  const siteOf = new Map<string, string>()
  const ends = new Map<string, ChainEnd>()
  for (let last = 0; ;) {
    const part = rows.all(last)
    for (const { position, run_id: runId, canonical, received_at: receivedAt } of part) {
      const event = JSON.parse(canonical) as RunEvent
      if (event.type === 'run-started' && !siteOf.has(runId)) siteOf.set(runId, event.site)
      const site = siteOf.get(runId) ?? ''
      const end = chained(site, canonical, receivedAt, ends.get(site) ?? NOTHING_CHAINED)
      ends.set(site, end)
      put.run(site, end.place, end.link, position)
      last = position
    }
    if (part.length === 0) break
  }
  const keep = database.prepare('INSERT INTO chains (site, place, link) VALUES (?, ?, ?)')
  for (const [site, { place, link }] of ends) keep.run(site, place, link)
}
