/** Going on without entries that were lost, which somebody chose: loaded when somebody does. */
import type { Course } from '../core/procedure/course.ts'
import { MOST_LOST_AT_ONCE } from '../core/record/wire.ts'
import { replay } from '../core/run/reduce.ts'
import { handsOf } from '../core/run/run.ts'
import type { EntriesLost } from '../ports/event-log.ts'
import type { Ports } from './ports.ts'
import { readStoredRun, type StoredRun } from './stored-run.ts'

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
