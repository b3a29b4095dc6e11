/** The events of a run in the agreed order, each with the state that it met. */
import type { Course } from '../procedure/course.ts'
import { compareEvents, type RunEvent } from '../run/event.ts'
import { lagsIn, type Lags } from '../run/lags.ts'
import { emptyRun, reduce, replay } from '../run/reduce.ts'
import type { Run } from '../run/run.ts'

export interface Visited {
  readonly event: RunEvent
  readonly before: Run
  readonly after: Run
  /** `taken-back`: it counted until somebody took it back. */
  readonly counts: 'yes' | 'taken-back' | 'set-aside'
}

export interface Walk {
  readonly end: Run
  readonly visits: readonly Visited[]
  readonly lags: Lags
}

/** `events` of one run, in any order. What was taken back never changed the state, as in a replay. */
export function walk(course: Course, events: readonly RunEvent[]): Walk {
  const ordered = [...new Map(events.map((event) => [event.id, event])).values()].sort(compareEvents)
  const id = ordered[0]?.runId ?? ''
  const lags = lagsIn(ordered)
  const end = replay(course, id, ordered)
  const aside = new Set(end.setAside.map((event) => event.id))
  const cancelled = new Set(
    ordered.flatMap((event) => (event.type === 'taken-back' && !aside.has(event.id) ? [event.cancels] : []))
  )
  let run = emptyRun(course, id)
  const visits = ordered.map((event): Visited => {
    const before = run
    const counts = aside.has(event.id) ? 'set-aside' : cancelled.has(event.id) ? 'taken-back' : 'yes'
    // A take-back that counts has had its effect: what it cancels is left out.
    if (counts === 'yes' && event.type !== 'taken-back') run = reduce(course, run, event, lags)
    return { event, before, after: run, counts }
  })
  return { end, visits, lags }
}
