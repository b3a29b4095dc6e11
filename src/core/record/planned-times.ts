/**
 * When each step and wait was planned: by the plan for one pair of hands, in the times that the author stated, from the
 * moment the run began. It is computed anew from the procedure version that the run pinned, so it is the same whenever
 * and wherever the record is made.
 */
import { planFor } from '../plan/plan.ts'
import { wholeProblem } from '../plan/problem-of-run.ts'
import type { Course } from '../procedure/course.ts'
import type { StepRef } from '../run/event.ts'

/** Trusted epoch ms. */
export interface PlannedTimes {
  readonly from: number
  readonly to: number
  /** When the wait after it is over by its minimum; the same as `to` where there is none. */
  readonly due: number
}

/** Null for what no plan has: rounds beyond the least number, and all of a procedure that cannot be planned. */
export type PlannedFor = (step: StepRef) => PlannedTimes | null

export function plannedTimes(course: Course, startedAt: number): PlannedFor {
  const offsets = offsetsOf(course)
  return (step) => {
    const found = offsets.get(keyOf(step))
    return found ? { from: startedAt + found.from, to: startedAt + found.to, due: startedAt + found.due } : null
  }
}

type Offsets = ReadonlyMap<string, PlannedTimes>

/** Many records are made of one procedure, and a plan takes some tens of milliseconds. */
const known = new WeakMap<Course, Offsets>()

function offsetsOf(course: Course): Offsets {
  const found = known.get(course)
  if (found) return found
  const planned = planFor(wholeProblem(course))
  const order = planned.kind === 'plan' ? planned.plan.order : []
  const offsets = new Map(
    order.map(({ lane, step, round, start, end, minMs }) => [
      keyOf({ lane, step, round }),
      { from: start, to: end, due: end + minMs }
    ])
  )
  known.set(course, offsets)
  return offsets
}

function keyOf({ lane, step, round }: StepRef): string {
  return JSON.stringify([lane, step, round])
}
