/** The runs of this device: which go on, which are over, and which nobody can go on with. */
import { listedWith, operatorOf, UNHEARD_OF, type ListedRun } from '../core/run/listed-run.ts'
import type { RunEvent } from '../core/run/event.ts'
import type { Kept } from '../ports/event-log.ts'
import type { Ports } from './ports.ts'
import { readStoredRun, takeFromServer } from './stored-run.ts'

/** A run that is not over, found on this device or on the server. */
export interface OpenRun {
  readonly runId: string
  readonly procedureHash: string
  readonly procedureId: string
  readonly startedAt: number
  readonly lastAt: number
  readonly operator: string
}

export interface RunsHere {
  readonly open: readonly OpenRun[]
  /** When each ended, as this device knows. The server may not have heard of it yet, or may know better. */
  readonly over: ReadonlyMap<string, number>
  /** Ids of runs that are not known to be over, and whose beginning cannot be read. */
  readonly unreadable: readonly string[]
}

const MOST_RUNS = 20

/** The last begun first. What is damaged is mended from the server where that has it. */
export async function runsHere(ports: Pick<Ports, 'log' | 'server'>, device: string): Promise<Kept<RunsHere>> {
  const ids = await ports.log.runs()
  if (ids.kind === 'failed') return ids
  const open: OpenRun[] = []
  const over = new Map<string, number>()
  const unreadable: string[] = []
  let serverAway = false
  for (const runId of ids.value.slice(0, MOST_RUNS)) {
    let stored = await readStoredRun(ports, { runId, device })
    if (stored.kind === 'damaged' && !serverAway) {
      const taken = await takeFromServer(ports, runId)
      serverAway = taken.kind === 'failed' || taken.value === 'server-away'
      stored = await readStoredRun(ports, { runId, device })
    }
    if (stored.kind === 'failed') return stored
    const listed = listedOf(stored.events)
    if (!listed.open) over.set(runId, listed.ended?.at ?? 0)
    else if (listed.started) open.push(openRunOf(runId, listed, listed.started))
    else if (stored.kind === 'damaged') unreadable.push(runId)
  }
  return { kind: 'kept', value: { open, over, unreadable } }
}

function listedOf(events: readonly RunEvent[]): ListedRun {
  return events.reduce(listedWith, UNHEARD_OF)
}

function openRunOf(runId: string, listed: ListedRun, started: NonNullable<ListedRun['started']>): OpenRun {
  const { procedureHash, procedureId, at: startedAt } = started
  return { runId, procedureHash, procedureId, startedAt, lastAt: listed.lastAt, operator: operatorOf(listed) }
}
