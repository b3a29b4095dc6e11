/** Entries about a record that a person makes at a screen, long after the run too: never by voice. */
import type { RunEvent, RunFact } from '../core/run/event.ts'
import type { Kept } from '../ports/event-log.ts'
import { mergedRun } from './merged-run.ts'
import type { Ports } from './ports.ts'

export type AboutRecord = Extract<RunFact, { type: 'noted' | 'amended' }>

export interface EntryMaker {
  readonly device: string
  readonly now: () => number
  /** Who makes the entry. */
  readonly name: string
}

/** The whole run is kept on this device with it: an entry alone would be a run with holes. */
export function addEntry(
  ports: Pick<Ports, 'log' | 'server' | 'locks' | 'clock' | 'newId'>,
  runId: string,
  fact: AboutRecord,
  { device, now, name }: EntryMaker
): Promise<Kept<void>> {
  return ports.locks.exclusively(`run ${runId}`, async () => {
    const { events } = await mergedRun(ports, runId)
    const received = await ports.log.receive(events)
    if (received.kind === 'failed') return received
    const own = events.filter((event) => event.device === device)
    const entry: RunEvent = {
      id: ports.newId(),
      runId,
      at: events.reduce((latest, event) => Math.max(latest, event.at + 1), now()),
      deviceAt: ports.clock.wall(),
      device,
      seq: own.reduce((last, { seq }) => Math.max(last, seq), 0) + 1,
      by: name,
      via: 'touch',
      ...fact
    }
    return ports.log.append([entry])
  })
}
