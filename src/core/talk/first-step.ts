/** A number told in steps: where it begins, and how large the steps are. */
import type { Check, ReadingUnit } from '../procedure/procedure.ts'
import { boundIn, type ReadingCheck } from '../run/bound-in.ts'
import type { Answer } from '../run/event.ts'
import type { Run } from '../run/run.ts'

export type SteppedAnswer = Exclude<Answer, { kind: 'yes-no' }>

interface Sizes {
  readonly small: number
  readonly big: number
}

/** About what strips and thermometers tell apart, and five to ten of them. */
const SIZES: Readonly<Record<Exclude<ReadingUnit, '[ppm]'>, Sizes>> = {
  Cel: { small: 1, big: 5 },
  '[degF]': { small: 1, big: 10 },
  '[pH]': { small: 0.1, big: 0.5 }
}
/** Weak solutions are told more finely than strong ones; `below` in ppm. */
const WEAK = { below: 50, small: 1, big: 5 }
const USUAL = { below: 1000, small: 10, big: 50 }
const STRONG = { small: 100, big: 500 }
const PIECES: Sizes = { small: 1, big: 10 }

/**
 * A reading begins at the last one of its kind in this run, else between its limits; a count begins at nothing, so that no
 * part is counted that was only expected. Null where no number is asked for.
 */
export function firstStep(check: Check | null, run: Run): SteppedAnswer | null {
  if (check?.kind === 'count') return { kind: 'count', value: 0 }
  if (check?.kind !== 'reading') return null
  return lastReading(run, check) ?? { kind: 'reading', value: between(check), unit: check.unit }
}

export function oneStep(from: SteppedAnswer, size: keyof Sizes, sign: 1 | -1): SteppedAnswer {
  const sizes = sizesFor(from)
  return { ...from, value: onGrid(from.value + sign * sizes[size], sizes.small) }
}

function sizesFor(answer: SteppedAnswer): Sizes {
  if (answer.kind === 'count') return PIECES
  if (answer.unit !== '[ppm]') return SIZES[answer.unit]
  return [WEAK, USUAL].find(({ below }) => answer.value < below) ?? STRONG
}

/** Sums of tenths are no tenths. */
function onGrid(value: number, small: number): number {
  return Number((Math.round(value / small) * small).toFixed(6))
}

function between({ unit, min, max }: ReadingCheck): number {
  const value = min !== null && max !== null ? (min + max) / 2 : (min ?? max ?? 0)
  return onGrid(value, sizesFor({ kind: 'reading', value, unit }).small)
}

function lastReading(run: Run, check: ReadingCheck): SteppedAnswer | null {
  const last = run.progress.findLast(
    (event) =>
      event.type === 'check-answered' && event.answer.kind === 'reading' && boundIn(check, event.answer.unit) !== null
  )
  return last?.type === 'check-answered' && last.answer.kind === 'reading' ? last.answer : null
}
