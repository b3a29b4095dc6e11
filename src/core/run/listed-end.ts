/** How a run in a list really ended. */
import type { Course } from '../procedure/course.ts'
import { compareEvents, type RunEvent } from './event.ts'
import type { Ended, ListedRun } from './listed-run.ts'
import { replay } from './reduce.ts'

/**
 * An end that somebody told is set aside where another device, which was away, shows that something was not done yet: the
 * run goes on. `events` are all of the run.
 */
export function withRealEnd(listed: ListedRun, course: Course, events: readonly RunEvent[]): ListedRun {
  if (listed.ended === null) return listed
  const aside = new Set(replay(course, '', events).setAside.map(({ id }) => id))
  const ends = events.filter((event): event is Ended => isEnd(event) && !aside.has(event.id)).sort(compareEvents)
  const [ended] = ends
  return ended ? { ...listed, open: false, ended } : { ...listed, open: true }
}

function isEnd({ type }: RunEvent): boolean {
  return type === 'run-finished' || type === 'run-abandoned'
}
