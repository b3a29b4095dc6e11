/** One row of a limit against one reading. */
import type { Reading } from './reading.ts'
import type { Bounds, Demand, Quantity, Row } from './rule-set.ts'
import { inUnit, type TemperatureUnit } from './temperature.ts'

export interface Fault {
  readonly quantity: Quantity
  readonly side: 'below' | 'above' | 'not-clear'
  /** The bound that was missed, in `unit`; for a look both numbers are 0. */
  readonly bound: number
  readonly value: number
  readonly by: number
  readonly unit: TemperatureUnit | null
}

export type JudgedRow =
  /** `margin`: how far inside the nearest bound, as a part of that bound; 0 on it. */
  | { readonly kind: 'met'; readonly margin: number; readonly assumed: readonly Demand[] }
  | { readonly kind: 'open'; readonly missing: readonly Quantity[] }
  | { readonly kind: 'broken'; readonly faults: readonly Fault[] }

/** Water comes from the mains with one hardness, so nobody measures it with each batch: it is assumed and told. */
const ASSUMED: readonly Quantity[] = ['hardness']

/** Limits are inclusive. The allowance is for the last bits of a sum, far below what can be read off. */
const ALLOWANCE = 1e-9

export function judgeRow(row: Row, reading: Reading): JudgedRow {
  const found = row.map((demand) => ({ demand, ...judgeDemand(demand, reading) }))
  const faults = found.flatMap(({ fault }) => fault ?? [])
  if (faults.length > 0) return { kind: 'broken', faults }
  const absent = found.filter(({ isMissing }) => isMissing).map(({ demand }) => demand)
  const missing = absent.map(({ quantity }) => quantity).filter((quantity) => !ASSUMED.includes(quantity))
  if (missing.length > 0) return { kind: 'open', missing }
  return { kind: 'met', margin: Math.min(...found.map(({ margin }) => margin)), assumed: absent }
}

/** How badly a row is missed: fewer faults first, then smaller ones. */
export function worseThan(one: readonly Fault[], other: readonly Fault[]): number {
  return one.length - other.length || extent(one) - extent(other)
}

function extent(faults: readonly Fault[]): number {
  return faults.reduce((sum, { by, bound }) => sum + by / Math.max(Math.abs(bound), 1), 0)
}

interface JudgedDemand {
  readonly fault: Fault | null
  readonly isMissing: boolean
  readonly margin: number
}

const MISSING: JudgedDemand = { fault: null, isMissing: true, margin: Infinity }
const MET: JudgedDemand = { fault: null, isMissing: false, margin: Infinity }

function judgeDemand(demand: Demand, reading: Reading): JudgedDemand {
  switch (demand.quantity) {
    case 'clear':
      if (reading.clear === undefined) return MISSING
      if (reading.clear) return MET
      return faulty({ quantity: 'clear', side: 'not-clear', bound: 0, value: 0, by: 0, unit: null })
    case 'temperature':
      return judgeTemperature(demand, reading)
    case 'ppm':
    case 'ph':
    case 'hardness':
    case 'seconds': {
      const value = reading[demand.quantity]
      if (value === 'later') return MET
      return value === undefined ? MISSING : within(demand.quantity, value, demand, null)
    }
  }
}

function judgeTemperature(demand: Extract<Demand, { quantity: 'temperature' }>, reading: Reading): JudgedDemand {
  const { temperature } = reading
  if (temperature === undefined) return MISSING
  const { unit, value } = temperature
  const other = unit === 'C' ? 'F' : 'C'
  const bounds = demand[unit] ?? converted(demand[other], other, unit)
  return within('temperature', value, bounds, unit)
}

function converted(bounds: Bounds | null, from: TemperatureUnit, to: TemperatureUnit): Bounds {
  const one = (value: number | null | undefined) =>
    value === null || value === undefined ? null : inUnit({ value, unit: from }, to)
  return { min: one(bounds?.min), max: one(bounds?.max) }
}

function within(quantity: Quantity, value: number, { min, max }: Bounds, unit: TemperatureUnit | null): JudgedDemand {
  const sides = [
    ...(min === null ? [] : [{ side: 'below' as const, bound: min, inside: value - min }]),
    ...(max === null ? [] : [{ side: 'above' as const, bound: max, inside: max - value }])
  ]
  const broken = sides.find(({ bound, inside }) => inside < -ALLOWANCE * Math.max(1, Math.abs(bound)))
  if (broken) return faulty({ quantity, side: broken.side, bound: broken.bound, value, by: -broken.inside, unit })
  const margin = Math.min(...sides.map(({ bound, inside }) => inside / Math.max(Math.abs(bound), 1)))
  return { fault: null, isMissing: false, margin }
}

function faulty(fault: Fault): JudgedDemand {
  return { fault, isMissing: false, margin: 0 }
}
