/** Whether an answer fits its check, whether it can be true, and whether it is good. */
import type { Course } from '../procedure/course.ts'
import type { Check, HeldTo, LaneId, Procedure } from '../procedure/procedure.ts'
import { judgeRow, worseThan, type Fault } from '../sanitizer/judge-row.ts'
import type { Reading } from '../sanitizer/reading.ts'
import { batchUpTo } from './batch.ts'
import type { Answer, StepRef } from './event.ts'
import type { Run } from './run.ts'

export function fitsCheck(check: Check, answer: Answer): boolean {
  if (check.kind !== answer.kind) return false
  if (answer.kind === 'reading')
    return check.kind === 'reading' && answer.unit === check.unit && Number.isFinite(answer.value)
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
  const isOwn = (check.min === null || answer.value >= check.min) && (check.max === null || answer.value <= check.max)
  return isOwn && judgeByRules(course, run, { lane, step }, check, answer).kind !== 'broken'
}

export type JudgedByRules =
  /** `decided` left the least room. */
  | { readonly kind: 'met'; readonly decided: HeldTo }
  | { readonly kind: 'broken'; readonly fault: Fault; readonly decided: HeldTo }
  /** No rule is broken by what was measured so far, and not every rule could be looked at. */
  | { readonly kind: 'open' }

/** A reading together with those taken of its batch before it. */
export function judgeByRules(
  course: Course,
  run: Run,
  { lane, step }: Pick<StepRef, 'lane' | 'step'>,
  check: Extract<Check, { kind: 'reading' }>,
  answer: Extract<Answer, { kind: 'reading' }>
): JudgedByRules {
  const { heldTo = [], of } = check
  if (of === undefined) return { kind: 'open' }
  const earlier = batchUpTo(course, lane, step)
    .slice(0, -1)
    .flatMap((place) => latestAnswer(run, lane, place.step.id) ?? [])
  const reading = [...earlier, answer].reduce<Reading>(withAnswer, { subject: of })
  const judged = heldTo.map((decided) => ({ decided, rows: decided.rows.map((row) => judgeRow(row, reading)) }))
  const broken = judged.flatMap(({ decided, rows }) => {
    const faults = rows.map((row) => (row.kind === 'broken' ? row.faults : []))
    const least = faults.every(({ length }) => length > 0) ? faults.toSorted(worseThan)[0] : undefined
    return least?.[0] ? [{ kind: 'broken', fault: least[0], decided } as const] : []
  })
  const [worst] = broken.toSorted((one, other) => worseThan([other.fault], [one.fault]))
  if (worst) return worst
  const met = judged.map(({ decided, rows }) => ({
    decided,
    margin: Math.max(...rows.map((row) => (row.kind === 'met' ? row.margin : -1)))
  }))
  const [tightest] = met.toSorted((one, other) => one.margin - other.margin)
  return tightest === undefined || tightest.margin < 0 ? { kind: 'open' } : { kind: 'met', decided: tightest.decided }
}

function latestAnswer(run: Run, lane: LaneId, step: string): Extract<Answer, { kind: 'reading' }> | null {
  const event = run.progress.findLast(
    (known) => known.type === 'check-answered' && known.lane === lane && known.step === step
  )
  return event?.type === 'check-answered' && event.answer.kind === 'reading' ? event.answer : null
}

function withAnswer(reading: Reading, { value, unit }: Extract<Answer, { kind: 'reading' }>): Reading {
  switch (unit) {
    case '[ppm]':
      return { ...reading, ppm: value }
    case '[pH]':
      return { ...reading, ph: value }
    case 'Cel':
      return { ...reading, temperature: { value, unit: 'C' } }
    case '[degF]':
      return { ...reading, temperature: { value, unit: 'F' } }
  }
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
