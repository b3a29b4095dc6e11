/** Where a plan sends a pair of hands now; where it has nothing to say, they go by the plain rule. */
import type { Course } from '../procedure/course.ts'
import type { LaneId } from '../procedure/procedure.ts'
import type { StepRef } from '../run/event.ts'
import { phaseOf } from '../run/phase.ts'
import { handsOf, laneStateOf, roundOf, type Run } from '../run/run.ts'
import { takenBy, whereNext, type Assignment } from './where-next.ts'

/** The steps a plan gives one pair of hands, in order; `start` is trusted epoch ms. */
export type Order = readonly (StepRef & { readonly start: number })[]

export type Sent =
  | Assignment
  /** Better to stand by for `lane`, which still waits, than to begin something else. */
  | { readonly kind: 'rest'; readonly lane: LaneId; readonly until: number }

/** Hands that chose their lane themselves stay there while something can be done on it. */
export function sendTo(course: Course, run: Run, at: number, device: string, order: Order): Sent {
  const plain = whereNext(course, run, at, device)
  const mine = handsOf(run, device)
  const stays = plain.kind === 'hands' && mine.chosen && plain.lane === mine.focus
  const next = order.find((planned) => !isOver(run, planned))
  if (plain.kind !== 'hands' || stays || next === undefined || takenBy(run, device, next.lane) !== null) return plain
  // What is wrong on a lane is put right first: the plan was made before it went wrong.
  if (phaseOf(course, run, plain.lane, at).kind !== 'ready') return plain
  const phase = phaseOf(course, run, next.lane, at)
  if (phase.kind === 'ready') return { kind: 'hands', lane: next.lane }
  return phase.kind === 'waiting' ? { kind: 'rest', lane: next.lane, until: phase.waiting.due } : plain
}

/** The step has been done, in that round, whoever did it. */
export function isOver(run: Run, { lane, step, round }: StepRef): boolean {
  const state = laneStateOf(run, lane)
  return state === undefined || roundOf(state, step) > round
}
