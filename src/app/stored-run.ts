/** A run as this device has it: whole, or with entries that can no longer be read. */
import type { Course } from '../core/procedure/course.ts'
import { MOST_LOST_AT_ONCE } from '../core/record/wire.ts'
import { gapsIn } from '../core/run/entries-lost.ts'
import type { RunEvent } from '../core/run/event.ts'
import { replay } from '../core/run/reduce.ts'
import { handsOf } from '../core/run/run.ts'
import type { EntriesLost, Kept, LogFailure } from '../ports/event-log.ts'
import type { Ports } from './ports.ts'

export type StoredRun =
  | { readonly kind: 'whole'; readonly events: readonly RunEvent[] }
  | {
      readonly kind: 'damaged'
      /** What can be read. */
      readonly events: readonly RunEvent[]
      /** Ids of what is there and cannot. */
      readonly damaged: readonly string[]
      /** Places that are empty in this device's own count; those of damaged entries of its own are among them. */
      readonly gaps: number
    }
  | { readonly kind: 'failed'; readonly reason: LogFailure; readonly detail: string }

export async function readStoredRun(
  { log }: Pick<Ports, 'log'>,
  { runId, device }: { readonly runId: string; readonly device: string }
): Promise<StoredRun> {
  const found = await log.salvage(runId)
  if (found.kind === 'failed') return found
  const { events, damaged } = found.value
  const gaps = gapsIn(events, device)
  return damaged.length === 0 && gaps === 0 ? { kind: 'whole', events } : { kind: 'damaged', events, damaged, gaps }
}

/** Whether the server could say what it has of a run. */
export type AskedServer = 'server-asked' | 'server-away'

/** How many entries are lost, as far as can be told. */
export function howManyLost({ damaged, gaps }: Extract<StoredRun, { kind: 'damaged' }>): number {
  return Math.max(damaged.length, gaps)
}

/** Takes in what the server has of a run; sound copies mend what is damaged here. */
export async function takeFromServer(
  { log, server }: Pick<Ports, 'log' | 'server'>,
  runId: string
): Promise<Kept<AskedServer>> {
  const answered = await server.events(runId, 0)
  if (answered.kind === 'failed') return { kind: 'kept', value: 'server-away' }
  const received = await log.receive(answered.value.events)
  return received.kind === 'failed' ? received : { kind: 'kept', value: 'server-asked' }
}

export interface GoingOn {
  readonly course: Course
  readonly runId: string
  readonly device: string
  readonly now: () => number
}

/** Goes on without what cannot be read, and keeps an event that says so. Whole when nothing is damaged any more. */
export function goOnWithoutLost(
  ports: Pick<Ports, 'log' | 'locks' | 'clock' | 'newId'>,
  { course, runId, device, now }: GoingOn
): Promise<StoredRun> {
  return ports.locks.exclusively(`run ${runId}`, async () => {
    const stored = await readStoredRun(ports, { runId, device })
    if (stored.kind !== 'damaged') return stored
    const { events, damaged, gaps } = stored
    const lastSeq = events.reduce((last, event) => (event.device === device ? Math.max(last, event.seq) : last), 0)
    const loss: EntriesLost = {
      id: ports.newId(),
      runId,
      at: events.reduce((latest, event) => Math.max(latest, event.at), now()) + 1,
      deviceAt: ports.clock.wall(),
      device,
      // Behind the places that damaged entries of its own may have had.
      seq: lastSeq + damaged.length + 1,
      by: handsOf(replay(course, runId, events), device).name,
      via: 'touch',
      type: 'entries-lost',
      ids: damaged.slice(0, MOST_LOST_AT_ONCE),
      gaps
    }
    const kept = await ports.log.setAside(loss)
    return kept.kind === 'failed' ? kept : readStoredRun(ports, { runId, device })
  })
}
