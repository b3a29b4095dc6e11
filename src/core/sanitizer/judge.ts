/** Whether a reading is good, out of limits or cannot be judged, and which limit says so. */
import { applicableLimits, type AppliedLimit } from './applicable-limits.ts'
import { judgeRow, worseThan, type Fault, type JudgedRow } from './judge-row.ts'
import type { Reading } from './reading.ts'
import type { Aspect, Demand, Quantity, RuleSet, Subject } from './rule-set.ts'

/** What the operator can do about it. */
export type Action =
  | 'add-product'
  | 'remix-weaker'
  | 'remix-fresh'
  | 'warm'
  | 'warm-or-add-product'
  | 'cool'
  | 'hold-longer'
  | 'softer-water'
  | 'rinse-again'
  | 'discard-if-long'

export interface OutOfLimit extends Fault {
  readonly applied: AppliedLimit
  readonly action: Action
}

export type Missing =
  | { readonly kind: 'reading'; readonly quantity: Quantity; readonly applied: AppliedLimit }
  | { readonly kind: 'label'; readonly quantity: Quantity; readonly applied: AppliedLimit }
  | { readonly kind: 'limit'; readonly aspect: Aspect }

/** A bound on something that was not measured and is taken to be met. */
export interface Assumption {
  readonly demand: Demand
  readonly applied: AppliedLimit
}

export type Judgement =
  /** `decided` is the limit with the least room left. */
  | {
      readonly verdict: 'good'
      readonly decided: AppliedLimit
      readonly limits: readonly AppliedLimit[]
      readonly assumed: readonly Assumption[]
    }
  /** The hardest demand first; one entry for each quantity and side. */
  | {
      readonly verdict: 'out'
      readonly out: readonly [OutOfLimit, ...OutOfLimit[]]
      readonly decided: AppliedLimit
      readonly limits: readonly AppliedLimit[]
    }
  | {
      readonly verdict: 'unknown'
      readonly missing: readonly Missing[]
      readonly decided: AppliedLimit | null
      readonly limits: readonly AppliedLimit[]
    }

/**
 * `ruleSets` as withFallbacks orders them. The strictest applies, because every limit has to be met. A reading is out
 * when no value of what is missing could save it, and unknown as long as one could spoil it.
 */
export function judge(reading: Reading, ruleSets: readonly RuleSet[], label: RuleSet | null): Judgement {
  const { limits, lacking, labelLacks } = applicableLimits(reading.subject, ruleSets, label)
  const judged = limits.map((applied) => ({ applied, best: bestRow(applied, reading) }))
  const out = hardestFirst(
    judged.flatMap(({ applied, best }) => (best.kind === 'broken' ? outOf(best.faults, applied, reading.subject) : []))
  )
  const [first, ...rest] = out
  if (first) return { verdict: 'out', out: [first, ...rest], decided: first.applied, limits }
  const missing: Missing[] = [
    ...judged.flatMap(({ applied, best }) =>
      best.kind === 'open' ? best.missing.map((quantity) => ({ kind: 'reading' as const, quantity, applied })) : []
    ),
    ...labelLacks.map(({ quantity, applied }) => ({ kind: 'label' as const, quantity, applied })),
    ...lacking.map((aspect) => ({ kind: 'limit' as const, aspect }))
  ]
  const met = judged.flatMap(({ applied, best }) => (best.kind === 'met' ? [{ applied, ...best }] : []))
  const decided = met.toSorted((one, other) => one.margin - other.margin)[0]?.applied
  if (missing.length > 0 || decided === undefined) {
    return { verdict: 'unknown', missing: onceEach(missing), decided: openLimit(missing) ?? decided ?? null, limits }
  }
  const assumed = met.flatMap(({ applied, assumed }) => assumed.map((demand) => ({ demand, applied })))
  return { verdict: 'good', decided, limits, assumed }
}

/** A row that is met, else one that still could be, else the one that is missed least. */
function bestRow({ limit }: AppliedLimit, reading: Reading): JudgedRow {
  const rows = limit.rows.map((row) => judgeRow(row, reading))
  const met = rows.flatMap((row) => (row.kind === 'met' ? [row] : []))
  if (met.length > 0) return met.reduce((best, row) => (row.margin > best.margin ? row : best))
  const open = rows.flatMap((row) => (row.kind === 'open' ? [row] : []))
  if (open.length > 0) return open.reduce((best, row) => (row.missing.length < best.missing.length ? row : best))
  const broken = rows.flatMap((row) => (row.kind === 'broken' ? [row] : []))
  return broken.toSorted((one, other) => worseThan(one.faults, other.faults))[0] ?? { kind: 'broken', faults: [] }
}

function outOf(faults: readonly Fault[], applied: AppliedLimit, subject: Subject): OutOfLimit[] {
  return faults.map((fault) => ({
    ...fault,
    applied,
    action: isCoolerWhenStronger(fault, applied) ? 'warm-or-add-product' : actionFor(fault, subject)
  }))
}

/** Codes let a stronger solution be cooler, and nobody should have to mix bleach with hot water. */
function isCoolerWhenStronger({ quantity, side, bound, unit }: Fault, { limit }: AppliedLimit): boolean {
  if (quantity !== 'temperature' || side !== 'below' || unit === null) return false
  return limit.rows.some((row) =>
    row.some((demand) => demand.quantity === 'temperature' && (demand[unit]?.min ?? bound) < bound)
  )
}

function actionFor({ quantity, side }: Fault, subject: Subject): Action {
  switch (quantity) {
    case 'ppm':
      return side === 'below' ? 'add-product' : 'remix-weaker'
    case 'temperature':
      if (side === 'below') return 'warm'
      return subject === 'cold-holding' ? 'discard-if-long' : 'cool'
    case 'ph':
      return 'remix-fresh'
    case 'hardness':
      return 'softer-water'
    case 'seconds':
      return 'hold-longer'
    case 'clear':
      return 'rinse-again'
  }
}

function hardestFirst(out: readonly OutOfLimit[]): OutOfLimit[] {
  const hardest = new Map<string, OutOfLimit>()
  for (const one of out) {
    const key = `${one.quantity} ${one.side}`
    const known = hardest.get(key)
    if (known === undefined || one.by > known.by) hardest.set(key, one)
  }
  return [...hardest.values()].toSorted((one, other) => worseThan([other], [one]))
}

function openLimit(missing: readonly Missing[]): AppliedLimit | null {
  return missing.flatMap((one) => (one.kind === 'limit' ? [] : [one.applied]))[0] ?? null
}

function onceEach(missing: readonly Missing[]): readonly Missing[] {
  const keyOf = (one: Missing) => (one.kind === 'limit' ? `limit ${one.aspect}` : `${one.kind} ${one.quantity}`)
  const told = new Map<string, Missing>()
  for (const one of missing) if (!told.has(keyOf(one))) told.set(keyOf(one), one)
  return [...told.values()]
}
