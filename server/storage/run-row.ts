/** How one more event changes the row of its run in the list of runs. */
import { compareEvents, type RunEvent } from '../../src/core/run/event.ts'
import type { RunRow } from './records.ts'

export type Started = Extract<RunEvent, { type: 'run-started' }>
export type HandedOver = Extract<RunEvent, { type: 'handed-over' }>

export interface RunSummary {
  /** The first of its kind in the order of events, as a replay takes it. */
  readonly started: Started | null
  /** The last of its kind in the order of events. */
  readonly handedOver: HandedOver | null
  readonly lastAt: number
  readonly open: boolean
}

export const NO_RUN: RunSummary = { started: null, handedOver: null, lastAt: 0, open: true }

/** Events may come in any order and in parts; the row ends up the same. */
export function withEvent(row: RunSummary, event: RunEvent): RunSummary {
  const lastAt = Math.max(row.lastAt, event.at)
  switch (event.type) {
    case 'run-started':
      return { ...row, lastAt, started: row.started && compareEvents(row.started, event) < 0 ? row.started : event }
    case 'handed-over':
      return {
        ...row,
        lastAt,
        handedOver: row.handedOver && compareEvents(row.handedOver, event) > 0 ? row.handedOver : event
      }
    case 'run-finished':
    case 'run-abandoned':
      return { ...row, lastAt, open: false }
    default:
      return { ...row, lastAt }
  }
}

/** Nothing while nobody has said that the run started: its other events are kept, and the start may still come. */
export function rowOf(runId: string, { started, handedOver, lastAt, open }: RunSummary): readonly RunRow[] {
  return started ? [{ runId, started, operator: handedOver?.to ?? started.by, lastAt, open }] : []
}
