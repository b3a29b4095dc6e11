/** A run as this device has it: whole, or with entries that can no longer be read. */
import { gapsIn } from '../core/run/entries-lost.ts'
import type { RunEvent } from '../core/run/event.ts'
import type { Kept, LogFailure } from '../ports/event-log.ts'
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
