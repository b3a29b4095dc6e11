/** What a list shows of a run, without a replay. Events may come in any order and in parts; it ends up the same. */
import { crewAfter, newHands, type CrewChange } from './crew-changes.ts'
import { compareEvents, type RunEvent } from './event.ts'
import type { Hands } from './run.ts'

type Started = Extract<RunEvent, { type: 'run-started' }>
export type Ended = Extract<RunEvent, { type: 'run-finished' | 'run-abandoned' }>
type Signed = Extract<RunEvent, { type: 'signed' }>

export interface ListedRun {
  /** The first of its kind in the order of events, as a replay takes it; null while it has not come. */
  readonly started: Started | null
  /** In the order of events. */
  readonly crewChanges: readonly CrewChange[]
  /** Trusted epoch ms of the latest event; 0 without any. */
  readonly lastAt: number
  readonly open: boolean
  /** The first end in the order of events that was told. Where the run is open all the same, it does not count. */
  readonly ended: Ended | null
  /** How many entries there are. */
  readonly entries: number
  /** In the order of events. */
  readonly signed: readonly Signed[]
}

export const UNHEARD_OF: ListedRun = {
  started: null,
  crewChanges: [],
  lastAt: 0,
  open: true,
  ended: null,
  entries: 0,
  signed: []
}

/** With one more event, which must not have been counted before. */
export function listedWith(before: ListedRun, event: RunEvent): ListedRun {
  const run = { ...before, lastAt: Math.max(before.lastAt, event.at), entries: before.entries + 1 }
  switch (event.type) {
    case 'run-started':
      return { ...run, started: first(run.started, event) }
    case 'joined':
    case 'left':
    case 'handed-over':
      return { ...run, crewChanges: [...run.crewChanges, event].sort(compareEvents) }
    case 'run-finished':
    case 'run-abandoned':
      return { ...run, open: false, ended: first(run.ended, event) }
    case 'signed':
      return { ...run, signed: [...run.signed, event].sort(compareEvents) }
    default:
      return run
  }
}

function first<E extends RunEvent>(known: E | null, event: E): E {
  return known && compareEvents(known, event) < 0 ? known : event
}

/** The name of the first pair of hands; empty while nobody has said that the run started. */
export function operatorOf({ started, crewChanges }: ListedRun): string {
  if (!started) return ''
  const crew = crewChanges
    .filter((change) => compareEvents(started, change) < 0)
    .reduce<readonly Hands[]>(
      (before, change) => crewAfter(before, change) ?? before,
      [newHands(started.device, started.by)]
    )
  return crew[0]?.name ?? ''
}
