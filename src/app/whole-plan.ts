/** The plan of a whole procedure, before it is begun: for the screen that gathers. */
import type { Course } from '../core/procedure/course.ts'
import type { LaneId } from '../core/procedure/procedure.ts'
import { AS_STATED, CHANGE_MS, wholeProblem } from '../core/plan/problem-of-run.ts'
import type { FinishTimes } from '../core/plan/times/finish-times.ts'
import { learnedAssumptions } from '../core/plan/times/learned-assumptions.ts'
import type { Planner } from '../ports/planner.ts'
import type { KnownTimes } from './known-times.ts'

/** Hands-on work or a wait, from and to in ms from the start. */
export interface PlannedNote {
  readonly lane: LaneId
  readonly kind: 'hands' | 'wait'
  readonly from: number
  readonly to: number
}

export type WholePlan =
  | {
      readonly kind: 'plan'
      readonly notes: readonly PlannedNote[]
      /** ms from the start. */
      readonly finish: number
      /** ms from the start; null where it is not known how times vary. */
      readonly likely: FinishTimes | null
      /** One side after the other; null where that order never ends. */
      readonly oneAfterOther: number | null
      /** How many past runs the times are learned from. */
      readonly runs: number
    }
  | { readonly kind: 'none' }

export async function planWhole(planner: Planner, course: Course, known: KnownTimes | null): Promise<WholePlan> {
  const assumed = known ? learnedAssumptions(known.learned, known.learned.pace, CHANGE_MS) : AS_STATED
  const answer = await planner.preview(wholeProblem(course, assumed), known?.learned ?? null)
  if (answer?.planned.kind !== 'plan') return { kind: 'none' }
  const { order, finish } = answer.planned.plan
  const notes = order.flatMap(({ lane, start, end, minMs }): readonly PlannedNote[] => {
    const hands: PlannedNote = { lane, kind: 'hands', from: start, to: end }
    return minMs === 0 ? [hands] : [hands, { lane, kind: 'wait', from: end, to: end + minMs }]
  })
  return {
    kind: 'plan',
    notes,
    finish,
    likely: answer.finish,
    oneAfterOther: answer.naive.oneSideThenOther.finish,
    runs: known?.runs ?? 0
  }
}
