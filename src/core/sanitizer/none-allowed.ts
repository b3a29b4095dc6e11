/** Whether limits leave nothing of a range. */
import type { ReadingKind, ReadingUnit } from '../procedure/procedure.ts'
import type { Bounds, Row } from './rule-set.ts'
import { inUnit } from './temperature.ts'

interface Range extends Bounds {
  readonly reading: ReadingKind
  readonly unit: ReadingUnit
}

/** A degree, because codes round their scales; nothing for other readings. */
const ROUNDED = { temperature: 1, strength: 0, ph: 0 } as const

export function noneAllowed(rows: readonly Row[], range: Range): boolean {
  return rows.every((row) => row.some((demand) => apart(boundsIn(demand, range), range)))
}

function boundsIn(demand: Row[number], { reading, unit }: Range): Bounds | null {
  if (demand.quantity === 'temperature') {
    if (reading !== 'temperature') return null
    const [wanted, other] = unit === '[degF]' ? (['F', 'C'] as const) : (['C', 'F'] as const)
    const given = demand[other]
    const one = (value: number | null) => (value === null ? null : inUnit({ value, unit: other }, wanted))
    return demand[wanted] ?? (given && { min: one(given.min), max: one(given.max) })
  }
  if (demand.quantity === 'ppm') return reading === 'strength' ? demand : null
  return demand.quantity === 'ph' && reading === 'ph' ? demand : null
}

function apart(bounds: Bounds | null, { reading, min, max }: Range): boolean {
  if (bounds === null) return false
  const slack = ROUNDED[reading]
  const isBelow = max !== null && bounds.min !== null && max < bounds.min - slack
  return isBelow || (min !== null && bounds.max !== null && min > bounds.max + slack)
}
