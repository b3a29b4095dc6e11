/** What writing events means for each store; every function here is part of one transaction. */
import { readEvent } from '../core/record/wire.ts'
import type { RunEvent } from '../core/run/event.ts'
import type { EntriesLost } from '../ports/event-log.ts'
import type { LogStore, LogTransaction } from './event-log-database.ts'

/** The stores that a transaction of these functions needs. */
export const WRITTEN: readonly LogStore[] = ['events', 'runs', 'outbox', 'rejected', 'damaged']

export type Writing = LogTransaction<'readwrite'>

/**
 * Returns the runs that got something new. An event that is there already is left as it is: nothing is rewritten, unless
 * what is there cannot be read. All requests of a kind are made together, because a slow tablet waits for each in turn.
 */
export async function addEvents(
  transaction: Writing,
  events: readonly RunEvent[],
  toOutbox: boolean
): Promise<readonly string[]> {
  const [stored, outbox, runs] = [
    transaction.objectStore('events'),
    transaction.objectStore('outbox'),
    transaction.objectStore('runs')
  ]
  const seen = new Set<string>()
  const given = events.filter(({ id }) => !seen.has(id) && seen.add(id))
  const rows: readonly unknown[] = await Promise.all(given.map(({ id }) => stored.get(id)))
  const fresh = given.filter((_, place) => rows[place] === undefined)
  const mended = given.filter((_, place) => rows[place] !== undefined && isDamaged(rows[place]))
  const beginnings = new Map<string, number>()
  for (const { runId, at } of [...fresh, ...mended]) {
    beginnings.set(runId, Math.min(at, beginnings.get(runId) ?? Infinity))
  }
  // A request for what cannot be stored throws at once; the others' answers must still be waited for.
  const [kept] = await Promise.all([
    Promise.all([...beginnings.keys()].map((runId) => runs.get(runId))),
    ...fresh.map(async (event) => stored.add(event)),
    ...fresh.map(async ({ id }) => (toOutbox ? outbox.add({ id }) : transaction.objectStore('rejected').delete(id))),
    ...mended.map((event) => mend(transaction, event, toOutbox))
  ])
  await Promise.all(
    [...beginnings].map(async ([runId, startedAt], place) => {
      const run = kept[place]
      if (!run || startedAt < run.startedAt) await runs.put({ runId, startedAt })
    })
  )
  for (const { type, runId } of [...fresh, ...mended])
    if (type === 'run-started') await outOfRejected(transaction, runId)
  return [...beginnings.keys()]
}

/** What the server did not take, because it did not know the run: it does now, or is about to. */
async function outOfRejected(transaction: Writing, runId: string): Promise<void> {
  const [refused, outbox] = [transaction.objectStore('rejected'), transaction.objectStore('outbox')]
  const [own, rejected] = await Promise.all([
    transaction.objectStore('events').index('run').getAllKeys(runId),
    refused.getAll()
  ])
  const ofRun = new Set(own)
  const back = rejected.filter(({ id, because }) => because === 'unknown-run' && ofRun.has(id))
  await Promise.all(back.flatMap(({ id }) => [refused.delete(id), outbox.add({ id })]))
}

/** The sound copy takes the place of the damaged row, and whatever was said about that no longer holds. */
async function mend(transaction: Writing, event: RunEvent, toOutbox: boolean): Promise<void> {
  const [stored, outbox] = [transaction.objectStore('events'), transaction.objectStore('outbox')]
  await keepAside(transaction, event.id, event.runId)
  await stored.put(event)
  await transaction.objectStore('rejected').delete(event.id)
  if (toOutbox && (await outbox.index('id').getKey(event.id)) === undefined) await outbox.add({ id: event.id })
}

/** Takes the damaged rows that are named out of the run; sound ones stay. What was lost is now said by `loss` itself. */
export async function moveAside(transaction: Writing, { ids, runId }: EntriesLost): Promise<void> {
  for (const id of new Set(ids)) {
    if (!(await keepAside(transaction, id, runId))) continue
    await transaction.objectStore('events').delete(id)
    await transaction.objectStore('rejected').delete(id)
    await leaveOutbox(transaction, id)
  }
}

/** Keeps a copy of a row that cannot be read; false when it can, or when there is none. */
async function keepAside(transaction: Writing, id: string, runId: string): Promise<boolean> {
  const row: unknown = await transaction.objectStore('events').get(id)
  if (row === undefined || !isDamaged(row)) return false
  await transaction.objectStore('damaged').add({ id, runId, row })
  return true
}

function isDamaged(row: unknown): boolean {
  return readEvent(row).kind === 'malformed'
}

export async function leaveOutbox(transaction: Writing, id: string): Promise<void> {
  const outbox = transaction.objectStore('outbox')
  const place = await outbox.index('id').getKey(id)
  if (place !== undefined) await outbox.delete(place)
}
