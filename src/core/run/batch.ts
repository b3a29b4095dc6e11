/** Readings of one batch: they follow each other on a lane, of one subject, with nothing done between them. */
import { laneOf, type Course, type LaneStep } from '../procedure/course.ts'
import { MACHINE, type LaneId } from '../procedure/procedure.ts'

/** From the first reading of the batch to the step itself; just the step where it names no subject. */
export function batchUpTo(course: Course, laneId: LaneId, step: string): readonly LaneStep[] {
  const steps = laneOf(course, laneId)?.steps ?? []
  const end = steps.findIndex((place) => place.step.id === step)
  let start = end
  while (start > 0 && isOneBatch(course, laneId, steps[start - 1], steps[start])) start -= 1
  return steps.slice(Math.max(start, 0), end + 1)
}

/** No other reading of its batch follows. */
export function endsBatch(course: Course, { lane, step }: { readonly lane: LaneId; readonly step: string }): boolean {
  const steps = laneOf(course, lane)?.steps ?? []
  const index = steps.findIndex((place) => place.step.id === step)
  return !isOneBatch(course, lane, steps[index], steps[index + 1])
}

function isOneBatch(
  course: Course,
  laneId: LaneId,
  before: LaneStep | undefined,
  after: LaneStep | undefined
): boolean {
  if (!before || !after) return false
  const [one, other] = [before.step.check, after.step.check]
  if (one?.kind !== 'reading' || other?.kind !== 'reading' || one.of === undefined || one.of !== other.of) return false
  const { wait, takes, frees } = before.step
  return wait === null && takes.length === 0 && frees.length === 0 && isTogether(course, laneId, before, after)
}

/** Every whole-machine step begins a block of its own: nothing may be done on the other lanes in between. */
function isTogether(course: Course, laneId: LaneId, before: LaneStep, after: LaneStep): boolean {
  if (laneId !== MACHINE) return before.block === after.block
  return course.lanes.every(({ id, steps }) => id === MACHINE || steps.every(({ block }) => block !== after.block))
}
