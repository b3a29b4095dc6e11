/** Whether an answer fits its check, whether it can be true, and whether it is good. */
import type { Course } from '../procedure/course.ts'
import type { Check, LaneId, Procedure } from '../procedure/procedure.ts'
import { batchUpTo } from './batch.ts'
import { boundIn } from './bound-in.ts'
import type { Answer, StepRef } from './event.ts'
import { judgeByRules, type JudgedByRules, type TakenReading } from './rules-met.ts'
import type { Run } from './run.ts'

export function fitsCheck(check: Check, answer: Answer): boolean {
  if (check.kind !== answer.kind) return false
  if (answer.kind === 'reading')
    return check.kind === 'reading' && boundIn(check, answer.unit) !== null && Number.isFinite(answer.value)
  if (answer.kind === 'count') return Number.isInteger(answer.value) && answer.value >= 0
  return true
}

/** Limits are inclusive: a reading on the limit is good. The author's limits and the rules of the shop must all be met. */
export function isGood(
  course: Course,
  run: Run,
  { lane, step }: Pick<StepRef, 'lane' | 'step'>,
  check: Check,
  answer: Answer
): boolean {
  if (check.kind === 'yes-no' && answer.kind === 'yes-no') return answer.value === check.good
  if (check.kind === 'count' && answer.kind === 'count')
    return answer.value === expectedCount(course.procedure, lane, check.parts)
  if (check.kind !== 'reading' || answer.kind !== 'reading') return false
  const bound = boundIn(check, answer.unit)
  if (!bound || answer.value < (bound.min ?? -Infinity) || answer.value > (bound.max ?? Infinity)) return false
  return judgeReading(course, run, { lane, step }, check, answer).kind !== 'broken'
}

/** A reading together with those taken of its batch before it. */
export function judgeReading(
  course: Course,
  run: Run,
  { lane, step }: Pick<StepRef, 'lane' | 'step'>,
  check: Extract<Check, { kind: 'reading' }>,
  answer: TakenReading
): JudgedByRules {
  if (!check.heldTo) return { kind: 'open', lacks: null }
  const earlier = batchUpTo(course, lane, step)
    .slice(0, -1)
    .flatMap((place) => latestAnswer(run, lane, place.step.id) ?? [])
  return judgeByRules(check.heldTo, [...earlier, answer])
}

function latestAnswer(run: Run, lane: LaneId, step: string): TakenReading | null {
  const event = run.progress.findLast(
    (known) => known.type === 'check-answered' && known.lane === lane && known.step === step
  )
  return event?.type === 'check-answered' && event.answer.kind === 'reading' ? event.answer : null
}

/** How many pieces a count must find on its lane: a side has its own, the bench and the whole machine have those of every side. */
export function expectedCount(procedure: Procedure, lane: LaneId, parts: readonly string[]): number {
  return partsExpected(procedure, lane, parts).reduce((sum, { pieces }) => sum + pieces, 0)
}

/** The same, part by part. */
export function partsExpected(procedure: Procedure, lane: LaneId, parts: readonly string[]) {
  const isSide = procedure.sides.some((side) => side.id === lane)
  return procedure.parts
    .filter((part) => parts.includes(part.id))
    .map((part) => ({ part, pieces: part.count * (part.per === 'side' && !isSide ? procedure.sides.length : 1) }))
}
