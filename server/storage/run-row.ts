import { operatorOf, type ListedRun } from '../../src/core/run/listed-run.ts'
import type { RunRow } from './records.ts'

/** Nothing while nobody has said that the run started: its other events are kept, and the start may still come. */
export function rowOf(runId: string, run: ListedRun): readonly RunRow[] {
  const { started, lastAt, open, ended, entries, signed } = run
  if (!started) return []
  return [{ runId, started, operator: operatorOf(run), lastAt, open, ended: open ? null : ended, entries, signed }]
}
