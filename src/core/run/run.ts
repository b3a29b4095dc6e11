/** The state of a run, recomputed from its events. */
import type { LaneId, WaitKind } from '../procedure/procedure.ts'
import type { RunEvent, StepRef } from './event.ts'

/**
 * A wait that counts. Times are trusted epoch ms. They move only together, by what the device that stamped them has
 * caught up with the server (lags.ts).
 */
export interface Waiting extends StepRef {
  readonly kind: WaitKind
  readonly device: string
  /** The id of the event that began it. */
  readonly begunBy: string
  readonly since: number
  readonly due: number
  readonly latest: number | null
  /** When the operator answered its alarm; null while nobody has. */
  readonly acknowledgedAt: number | null
}

export type Stop =
  | { readonly kind: 'bad-answer'; readonly at: number; readonly eventId: string }
  | { readonly kind: 'too-many-rounds'; readonly at: number; readonly eventId: string }
  /** Entries were lost, and nobody has looked yet at what is really done here. */
  | { readonly kind: 'entries-lost'; readonly at: number; readonly eventId: string }
  | { readonly kind: 'problem'; readonly at: number; readonly eventId: string; readonly text: string }

export interface LaneState {
  /** Index of the lane's next step; the number of steps when the lane is finished. */
  readonly position: number
  /** How often each step was done or answered here; a step's round is one more. */
  readonly passes: Readonly<Record<string, number>>
  /** The wait that must be over before the next step; kept, acknowledged, until that step is done. */
  readonly waiting: Waiting | null
  readonly stop: Stop | null
  /** Cautions of the next step were spoken and acknowledged. */
  readonly cautioned: boolean
  /** What was done last on this lane, for the words on coming back to it. */
  readonly last: StepRef | null
}

/** One pair of hands at the machine, and the device that speaks to them. */
export interface Hands {
  readonly device: string
  readonly name: string
  /** The lane they were last called to, chose or worked on. */
  readonly focus: LaneId | null
  /** They asked for that lane themselves. */
  readonly chosen: boolean
  /** They are back on that lane, from another one or from an interruption, and have done nothing there since. */
  readonly returned: boolean
  /** They rest until then, trusted epoch ms, so as to be free in time for the lane they are called to. */
  readonly restUntil: number | null
}

export interface StartedFrom {
  readonly procedureId: string
  readonly procedureHash: string
  readonly site: string
  readonly machine: string
  readonly zone: string
}

export interface Run {
  readonly id: string
  readonly status: 'not-started' | 'running' | 'paused' | 'finished' | 'abandoned'
  readonly from: StartedFrom | null
  readonly startedAt: number
  readonly endedAt: number | null
  /** The pairs of hands at work; the first is whose device began the run. Empty before it has begun. */
  readonly crew: readonly Hands[]
  readonly lanes: Readonly<Record<LaneId, LaneState>>
  /** Tool id to the lanes that hold one. */
  readonly held: Readonly<Record<string, readonly LaneId[]>>
  /** Events that count, in order: what take-back looks through. */
  readonly progress: readonly RunEvent[]
  /** Events that did not fit the state when they came, such as a step already done elsewhere. Kept and shown. */
  readonly setAside: readonly RunEvent[]
}

/** For callers who speak for nobody in particular: the first pair of hands. */
export const FIRST_HANDS = ''

/** The pair of hands that a device speaks to. One that has not joined speaks for the first pair. */
export function handsOf(run: Run, device: string): Hands {
  return handsIn(run.crew, device)
}

export function handsIn(crew: Run['crew'], device: string): Hands {
  return crew.find((hands) => hands.device === device) ?? crew[0] ?? NOBODY
}

const NOBODY: Hands = { device: FIRST_HANDS, name: '', focus: null, chosen: false, returned: false, restUntil: null }

/** Which round of a step comes next on a lane, from 1. */
export function roundOf(lane: LaneState, step: string): number {
  return (Object.hasOwn(lane.passes, step) ? (lane.passes[step] ?? 0) : 0) + 1
}

/** Events may name anything as a lane; only lanes of the course have a state. */
export function laneStateOf(run: Run, lane: LaneId): LaneState | undefined {
  return Object.hasOwn(run.lanes, lane) ? run.lanes[lane] : undefined
}

/** The lanes that hold one of a tool, once for each that they hold. */
export function holdersOf(held: Run['held'], tool: string): readonly LaneId[] {
  return Object.hasOwn(held, tool) ? (held[tool] ?? []) : []
}
