import { layOut } from '../../src/core/procedure/course.ts'
import type { Procedure } from '../../src/core/procedure/procedure.ts'
import type { RunEvent } from '../../src/core/run/event.ts'
import { replay } from '../../src/core/run/reduce.ts'
import type { Records } from '../storage/records.ts'

/**
 * Whether a run has really ended. An end that somebody told is set aside where another device, which was away, has shown
 * that something was not done yet. Without the procedure version nobody can tell, and what was told counts.
 */
export async function isOver(records: Records, events: readonly RunEvent[]): Promise<boolean> {
  if (!events.some(({ type }) => type === 'run-finished' || type === 'run-abandoned')) return false
  const hash = events.find((event) => event.type === 'run-started')?.procedureHash
  const canonical = hash === undefined ? null : await records.procedure(hash)
  if (canonical === null) return true
  const { status } = replay(layOut(JSON.parse(canonical) as Procedure), '', events)
  return status === 'finished' || status === 'abandoned'
}
