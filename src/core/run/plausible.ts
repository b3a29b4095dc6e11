/** What cannot have been measured or counted: more likely misheard or mistyped, so it is asked for again. */
import type { Check, LaneId, Procedure } from '../procedure/procedure.ts'
import type { Answer } from './event.ts'
import { expectedCount } from './judge-answer.ts'

/**
 * Inclusive. Water is between ice and steam, food may be frozen hard; pH is 0 to 14 on every strip. A hundredth of a
 * solution is no sanitizer that anybody reads with a strip: common practice, no source.
 */
const RANGES = {
  '[ppm]': [0, 10_000],
  Cel: [-60, 100],
  '[degF]': [-76, 212],
  '[pH]': [0, 14]
} as const

/** So many times as many parts as there are, nobody counts by mistake. */
const TIMES_EXPECTED = 3
const FEW = 10

export function isPlausible(procedure: Procedure, lane: LaneId, check: Check, answer: Answer): boolean {
  if (answer.kind === 'yes-no') return true
  if (answer.kind === 'count') {
    const expected = check.kind === 'count' ? expectedCount(procedure, lane, check.parts) : 0
    return answer.value >= 0 && answer.value <= Math.max(FEW, expected * TIMES_EXPECTED)
  }
  const [least, most] = RANGES[answer.unit]
  return answer.value >= least && answer.value <= most
}
