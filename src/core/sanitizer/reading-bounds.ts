/** Limits of a rule set as bounds of what is read in a run, in every unit that it can be read in. */
import type { Bound, HeldTo } from '../procedure/procedure.ts'
import type { Bounds, Demand } from './rule-set.ts'
import { inUnit, type TemperatureUnit } from './temperature.ts'

const ONE_UNIT = { ppm: '[ppm]', ph: '[pH]' } as const

/** None for what nobody reads in a run: a hardness, a look, or a time, which is kept by a wait. */
export function boundsOf(demand: Demand): readonly Bound[] {
  switch (demand.quantity) {
    case 'ppm':
    case 'ph':
      return [{ unit: ONE_UNIT[demand.quantity], min: demand.min, max: demand.max }]
    case 'temperature':
      return [
        { unit: 'Cel', ...(demand.C ?? converted(demand.F, 'F', 'C')) },
        { unit: '[degF]', ...(demand.F ?? converted(demand.C, 'C', 'F')) }
      ]
    case 'hardness':
    case 'seconds':
    case 'clear':
      return []
  }
}

function converted(bounds: Bounds | null, from: TemperatureUnit, to: TemperatureUnit): Bounds {
  const one = (value: number | null | undefined) =>
    value === null || value === undefined ? null : inUnit({ value, unit: from }, to)
  return { min: one(bounds?.min), max: one(bounds?.max) }
}

/** A degree, because codes round their scales. */
const ROUNDED: Readonly<Record<Bound['unit'], number>> = { Cel: 1, '[degF]': 1, '[ppm]': 0, '[pH]': 0 }

/** Whether limits leave nothing of a range. */
export function noneAllowed(rows: HeldTo['rows'], range: Bound): boolean {
  const slack = ROUNDED[range.unit]
  const isApart = ({ min, max }: Bound) =>
    (range.max !== null && min !== null && range.max < min - slack) ||
    (range.min !== null && max !== null && range.min > max + slack)
  return rows.every((row) => row.some((bounds) => bounds.some((bound) => bound.unit === range.unit && isApart(bound))))
}
