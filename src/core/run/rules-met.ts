/** Readings of one batch against the limits of the shop's rules that were published with the procedure. */
import type { Bound, HeldTo, ReadingUnit } from '../procedure/procedure.ts'
import type { Answer } from './event.ts'

export type TakenReading = Extract<Answer, { kind: 'reading' }>

export interface BrokenBound {
  readonly value: number
  readonly unit: ReadingUnit
  readonly side: 'below' | 'above'
  readonly bound: number
}

export type JudgedByRules =
  /** `decided` left the least room. */
  | { readonly kind: 'met'; readonly decided: HeldTo }
  | { readonly kind: 'broken'; readonly broken: BrokenBound; readonly decided: HeldTo }
  /** No rule is broken by what was measured so far; `lacks` tells the first that could not be looked at. */
  | { readonly kind: 'open'; readonly lacks: Lacking | null }

export interface Lacking {
  readonly rule: HeldTo
  /** Not measured; each by a unit that it can be read in. */
  readonly missing: readonly ReadingUnit[]
}

/** The latest of two readings in one unit counts. */
export function judgeByRules(heldTo: readonly HeldTo[], taken: readonly TakenReading[]): JudgedByRules {
  const judged = heldTo.map((decided) => ({ decided, ...bestRow(decided, taken) }))
  const worst = judged.toSorted((one, other) => one.room - other.room)[0]
  if (!worst) return { kind: 'open', lacks: null }
  if (worst.broken) return { kind: 'broken', broken: worst.broken, decided: worst.decided }
  const lacking = judged.find(({ missing }) => missing.length > 0)
  return lacking
    ? { kind: 'open', lacks: { rule: lacking.decided, missing: lacking.missing } }
    : { kind: 'met', decided: worst.decided }
}

interface JudgedRow {
  /** How far inside the nearest bound, as a part of it; below zero outside. */
  readonly room: number
  readonly broken: BrokenBound | null
  readonly missing: readonly ReadingUnit[]
}

/** One row is enough: the one with the most room, and of those that are met one that was wholly measured. */
function bestRow({ rows }: HeldTo, taken: readonly TakenReading[]): JudgedRow {
  const judged = rows.map((row) => judgeRow(row, taken))
  const met = judged.filter(({ broken }) => !broken)
  const whole = met.filter(({ missing }) => missing.length === 0)
  const best = (from: readonly JudgedRow[]) => from.toSorted((one, other) => other.room - one.room)[0]
  return best(whole) ?? best(met) ?? best(judged) ?? { room: Infinity, broken: null, missing: [] }
}

function judgeRow(row: readonly (readonly Bound[])[], taken: readonly TakenReading[]): JudgedRow {
  const judged = row.map((bounds) => judgeBounds(bounds, taken))
  return {
    room: Math.min(Infinity, ...judged.map(({ room }) => room)),
    broken: judged.toSorted((one, other) => one.room - other.room).find(({ broken }) => broken)?.broken ?? null,
    missing: judged.flatMap(({ missing }) => missing)
  }
}

/** Bounds of one quantity, in each unit it can be read in; only that of the reading counts. */
function judgeBounds(bounds: readonly Bound[], taken: readonly TakenReading[]): JudgedRow {
  const reading = taken.findLast(({ unit }) => bounds.some((bound) => bound.unit === unit))
  const bound = bounds.find(({ unit }) => unit === reading?.unit)
  if (!reading || !bound) return { room: Infinity, broken: null, missing: bounds.slice(0, 1).map((one) => one.unit) }
  const { value, unit } = reading
  const room = (inside: number, limit: number) => inside / Math.max(Math.abs(limit), 1)
  const below = bound.min === null ? Infinity : room(value - bound.min, bound.min)
  const above = bound.max === null ? Infinity : room(bound.max - value, bound.max)
  const broken: BrokenBound | null =
    below < 0
      ? { value, unit, side: 'below', bound: bound.min ?? 0 }
      : above < 0
        ? { value, unit, side: 'above', bound: bound.max ?? 0 }
        : null
  return { room: Math.min(below, above), broken, missing: [] }
}
