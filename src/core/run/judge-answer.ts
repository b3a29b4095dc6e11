/** Whether an answer fits its check, and whether it is good. */
import type { Check, LaneId, Procedure } from '../procedure/procedure.ts'
import type { Answer } from './event.ts'

export function fitsCheck(check: Check, answer: Answer): boolean {
  if (check.kind !== answer.kind) return false
  if (answer.kind === 'reading')
    return check.kind === 'reading' && answer.unit === check.unit && Number.isFinite(answer.value)
  if (answer.kind === 'count') return Number.isInteger(answer.value) && answer.value >= 0
  return true
}

/** Limits are inclusive: a reading on the limit is good. */
export function isGood(procedure: Procedure, lane: LaneId, check: Check, answer: Answer): boolean {
  if (check.kind === 'yes-no' && answer.kind === 'yes-no') return answer.value === check.good
  if (check.kind === 'count' && answer.kind === 'count')
    return answer.value === expectedCount(procedure, lane, check.parts)
  if (check.kind === 'reading' && answer.kind === 'reading') {
    return (check.min === null || answer.value >= check.min) && (check.max === null || answer.value <= check.max)
  }
  return false
}

/** How many pieces a count must find on its lane: a side has its own, the bench and the whole machine have those of every side. */
export function expectedCount(procedure: Procedure, lane: LaneId, parts: readonly string[]): number {
  const isSide = procedure.sides.some((side) => side.id === lane)
  return procedure.parts
    .filter((part) => parts.includes(part.id))
    .reduce((sum, part) => sum + part.count * (part.per === 'side' && !isSide ? procedure.sides.length : 1), 0)
}
