/** A run that the server lost goes into the outbox anew: seldom, so it is loaded when it is needed. */
import { readEvent } from '../core/record/wire.ts'
import { compareEvents, type RunEvent } from '../core/run/event.ts'
import { leaveOutbox, type Writing } from './event-log-writes.ts'

/** False when the beginning of the run is not here, or cannot be read. */
export async function toOutboxAnew(transaction: Writing, runId: string): Promise<boolean> {
  const rows: readonly unknown[] = await transaction.objectStore('events').index('run').getAll(runId)
  const events = runToSendAgain(rows)
  for (const { id } of events) {
    await leaveOutbox(transaction, id)
    await transaction.objectStore('rejected').delete(id)
    await transaction.objectStore('outbox').add({ id })
  }
  return events.length > 0
}

/** What is sound of a run, in order; nothing without its beginning. Only the server makes signatures. */
export function runToSendAgain(rows: readonly unknown[]): readonly RunEvent[] {
  const events = rows.flatMap((row) => {
    const read = readEvent(row)
    return read.kind === 'event' && read.event.type !== 'signed' ? [read.event] : []
  })
  return events.some(({ type }) => type === 'run-started') ? events.sort(compareEvents) : []
}
