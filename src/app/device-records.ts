/** Records as this device has them, for when the server is away: listed, and taken away as files. */
import { layOut, type Course } from '../core/procedure/course.ts'
import { EXPORT_FORMAT, type Export } from '../core/record/export-format.ts'
import { makeRecord } from '../core/record/make-record.ts'
import { recordsCsv } from '../core/record/record-csv.ts'
import { reviewOf } from '../core/record/review.ts'
import type { Reader } from '../core/record/record-lines.ts'
import type { RunEvent } from '../core/run/event.ts'
import { withRealEnd } from '../core/run/listed-end.ts'
import { listedWith, operatorOf, UNHEARD_OF } from '../core/run/listed-run.ts'
import type { RecordListing } from '../ports/records.ts'
import type { Ports } from './ports.ts'

export interface DeviceRun {
  readonly listing: RecordListing
  readonly events: readonly RunEvent[]
}

/** The last begun first. Of a damaged run, what can be read. */
export async function runsOfDevice({ log }: Pick<Ports, 'log'>): Promise<readonly DeviceRun[]> {
  const ids = await log.runs()
  if (ids.kind === 'failed') return []
  const found: DeviceRun[] = []
  for (const runId of ids.value) {
    const stored = await log.salvage(runId)
    if (stored.kind === 'failed') continue
    const { events } = stored.value
    const listing = await listingOf(log, runId, events)
    if (listing) found.push({ listing, events })
  }
  return found
}

async function listingOf(log: Ports['log'], runId: string, events: readonly RunEvent[]): Promise<RecordListing | null> {
  const told = events.reduce(listedWith, UNHEARD_OF)
  const { started, entries, signed } = told
  if (!started) return null
  const pinned = await log.procedure(started.procedureHash)
  const procedure = pinned.kind === 'kept' ? pinned.value?.procedure : undefined
  const listed = procedure ? withRealEnd(told, layOut(procedure), events) : told
  const ended = listed.open ? null : listed.ended
  const { procedureId, procedureHash, site, machine, zone, at } = started
  return {
    ...{ runId, procedureId, procedureHash, title: null, site, machine, zone, entries },
    operator: operatorOf(listed),
    startedAt: at,
    endedAt: ended?.at ?? null,
    status: ended === null ? 'open' : ended.type === 'run-finished' ? 'complete' : 'ended-early',
    review: reviewOf(signed, entries)
  }
}

export interface TakenFile {
  readonly name: string
  readonly type: string
  readonly text: string
}

export interface ToTake {
  readonly events: readonly RunEvent[]
  readonly course: Course
  /** Of the procedure version. */
  readonly hash: string
}

/** In the form of the server's export, but nothing of it has been chained or signed: see core/record/check-export.ts. */
export function deviceExport(runs: readonly ToTake[], name: string, at: number): TakenFile {
  const made: Export = {
    format: EXPORT_FORMAT,
    madeAt: at,
    chains: [],
    loose: runs.flatMap(({ events }) => [...events]),
    keys: [],
    procedures: Object.fromEntries(runs.map(({ course, hash }) => [hash, course.procedure]))
  }
  return { name: `sidecall-${name}.json`, type: 'application/json', text: JSON.stringify(made) }
}

export function deviceTable(runs: readonly ToTake[], name: string, reader: Reader): TakenFile {
  const records = runs.flatMap(({ course, events }) => makeRecord(course, events) ?? [])
  const table = recordsCsv(records, reader)
  return { name: `sidecall-${name}.csv`, type: 'text/csv', text: `\ufeff${table}` }
}
