/** A run as the server and this device know it together. */
import { compareEvents, type RunEvent } from '../core/run/event.ts'
import type { Ports } from './ports.ts'

export interface MergedRun {
  /** In the agreed order. */
  readonly events: readonly RunEvent[]
  /** How many the server has; null when it is away. */
  readonly onServer: number | null
}

export async function mergedRun({ log, server }: Pick<Ports, 'log' | 'server'>, runId: string): Promise<MergedRun> {
  const [answered, stored] = await Promise.all([server.events(runId, 0), log.salvage(runId)])
  const theirs = answered.kind === 'answered' ? answered.value.events : []
  const ours = stored.kind === 'kept' ? stored.value.events : []
  const all = new Map([...ours, ...theirs].map((event) => [event.id, event]))
  return {
    events: [...all.values()].sort(compareEvents),
    onServer: answered.kind === 'answered' ? theirs.length : null
  }
}
