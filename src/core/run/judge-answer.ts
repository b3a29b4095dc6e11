/** Whether an answer fits its check, and whether it is good. */
import type { Check, Procedure } from '../procedure/procedure.ts'
import type { Answer } from './event.ts'

export function fitsCheck(check: Check, answer: Answer): boolean {
  if (check.kind !== answer.kind) return false
  if (answer.kind === 'reading') return check.kind === 'reading' && answer.unit === check.unit && Number.isFinite(answer.value)
  if (answer.kind === 'count') return Number.isInteger(answer.value) && answer.value >= 0
  return true
}

/** Limits are inclusive: a reading on the limit is good. */
export function isGood(procedure: Procedure, check: Check, answer: Answer): boolean {
  if (check.kind === 'yes-no' && answer.kind === 'yes-no') return answer.value === check.good
  if (check.kind === 'count' && answer.kind === 'count') return answer.value === expectedCount(procedure, check.parts)
  if (check.kind === 'reading' && answer.kind === 'reading') {
    return (check.min === null || answer.value >= check.min) && (check.max === null || answer.value <= check.max)
  }
  return false
}

/** How many pieces a count must find on its lane. */
export function expectedCount(procedure: Procedure, parts: readonly string[]): number {
  return procedure.parts.filter((part) => parts.includes(part.id)).reduce((sum, part) => sum + part.count, 0)
}
