/** How one more event changes the row of its run in the list of runs. */
import type { RunEvent } from '../../src/core/run/event.ts'

export interface RunSummary {
  readonly started: Extract<RunEvent, { type: 'run-started' }> | null
  readonly operator: string
  readonly lastAt: number
  readonly open: boolean
}

export const NO_RUN: RunSummary = { started: null, operator: '', lastAt: 0, open: true }

/** Events may come in any order and in parts; the row ends up the same. */
export function withEvent(row: RunSummary, event: RunEvent): RunSummary {
  const lastAt = Math.max(row.lastAt, event.at)
  switch (event.type) {
    case 'run-started':
      return { ...row, lastAt, started: event, operator: row.operator || event.by }
    case 'handed-over':
      return { ...row, lastAt, operator: event.to }
    case 'run-finished':
    case 'run-abandoned':
      return { ...row, lastAt, open: false }
    default:
      return { ...row, lastAt }
  }
}
