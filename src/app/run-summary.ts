/** A finished run in figures, for the person who has just done it. */
import type { Answer, RunEvent } from '../core/run/event.ts'
import type { LaneId } from '../core/procedure/procedure.ts'

export interface RunSummary {
  /** From the start to the end, or to the last event of a run that goes on; ms. */
  readonly durationMs: number
  /** Readings and counts that count, in order. */
  readonly answers: readonly {
    readonly lane: LaneId
    readonly step: string
    readonly answer: Answer
    readonly good: boolean
  }[]
  readonly corrections: readonly { readonly lane: LaneId; readonly action: string }[]
  readonly problems: readonly { readonly lane: LaneId; readonly text: string }[]
  readonly newParts: readonly { readonly lane: LaneId; readonly part: string }[]
  /** Attempts that were refused, such as done before a wait was over. */
  readonly refused: number
  readonly takenBack: number
  /** Entries that the device could not read any more. */
  readonly lost: number
  /** Who carried it out, in order, without repeats. */
  readonly operators: readonly string[]
}

export function summarise(events: readonly RunEvent[]): RunSummary {
  const cancelled = new Set(events.flatMap((event) => (event.type === 'taken-back' ? [event.cancels] : [])))
  const counting = events.filter((event) => !cancelled.has(event.id))
  const [first, last] = [events[0], events.at(-1)]
  const end = events.find((event) => event.type === 'run-finished' || event.type === 'run-abandoned') ?? last
  return {
    durationMs: first && end ? end.at - first.at : 0,
    answers: counting.flatMap((event) =>
      event.type === 'check-answered' && event.answer.kind !== 'yes-no'
        ? [{ lane: event.lane, step: event.step, answer: event.answer, good: event.good }]
        : []
    ),
    corrections: counting.flatMap((event) =>
      event.type === 'corrected' ? [{ lane: event.lane, action: event.action }] : []
    ),
    problems: counting.flatMap((event) =>
      event.type === 'problem-reported' ? [{ lane: event.lane, text: event.text }] : []
    ),
    newParts: counting.flatMap((event) =>
      event.type === 'part-replaced' ? [{ lane: event.lane, part: event.part }] : []
    ),
    refused: events.filter((event) => event.type === 'refused').length,
    takenBack: cancelled.size,
    lost: events.reduce(
      (sum, event) => (event.type === 'entries-lost' ? sum + Math.max(event.ids.length, event.gaps) : sum),
      0
    ),
    operators: [
      ...new Set(
        counting.flatMap((event) =>
          event.type === 'run-started' ? [event.by] : event.type === 'handed-over' ? [event.to] : []
        )
      )
    ]
  }
}
