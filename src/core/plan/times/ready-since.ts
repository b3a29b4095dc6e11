/** Since when each lane has been ready for its next step; what the log itself does not say, because waits end by time. */
import type { Course } from '../../procedure/course.ts'
import type { LaneId } from '../../procedure/procedure.ts'
import { phaseOf } from '../../run/phase.ts'
import type { Run } from '../../run/run.ts'

export type ReadySince = ReadonlyMap<LaneId, number>

/**
 * Looks at every instant after `from` up to `to` at which a wait ends, and at `to`. Trusted epoch ms. A lane that has
 * just been served must not be in `known` any more.
 */
export function readyUntil(course: Course, run: Run, known: ReadySince, from: number, to: number): ReadySince {
  const dues = Object.values(run.lanes)
    .flatMap(({ waiting }) => (waiting && waiting.due > from && waiting.due < to ? [waiting.due] : []))
    .sort((a, b) => a - b)
  const since = new Map<LaneId, number>()
  for (const { id } of course.lanes) {
    const isReady = (at: number) => phaseOf(course, run, id, at).kind === 'ready'
    const already = known.get(id)
    const first = already ?? [from, ...dues, to].find(isReady)
    if (first !== undefined && isReady(to)) since.set(id, first)
  }
  return since
}
