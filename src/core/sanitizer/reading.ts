/** What was measured, and whether a machine or a person could have measured it at all. */
import type { Subject } from './rule-set.ts'
import { inUnit, type Temperature } from './temperature.ts'

/** What is left out was not measured. */
export interface Reading {
  readonly subject: Subject
  readonly ppm?: number | undefined
  readonly temperature?: Temperature | undefined
  readonly ph?: number | undefined
  /** mg/L of calcium carbonate. */
  readonly hardness?: number | undefined
  /** `later` while the contact is still to come and a wait will see to it. */
  readonly seconds?: number | 'later' | undefined
  readonly clear?: boolean | undefined
}

export type Measured = 'ppm' | 'temperature' | 'ph' | 'hardness' | 'seconds'

export interface Implausible {
  readonly quantity: Measured
  readonly value: number
  readonly unit: 'C' | 'F' | null
  readonly from: number
  readonly to: number
}

/** What can be at all. A million ppm is the pure thing, a day more than any contact; the rest is common practice. */
const RANGES = { ppm: [0, 1_000_000], ph: [0, 14], hardness: [0, 10_000], seconds: [0, 86_400] } as const
const WATER_C = [0, 100] as const
const STORE_C = [-60, 100] as const

export function implausible(reading: Reading): readonly Implausible[] {
  const plain = (['ppm', 'ph', 'hardness', 'seconds'] as const).flatMap((quantity) => {
    const value = reading[quantity]
    const [from, to] = RANGES[quantity]
    return typeof value !== 'number' || (value >= from && value <= to)
      ? []
      : [{ quantity, value, unit: null, from, to }]
  })
  const { temperature } = reading
  if (temperature === undefined) return plain
  const [from, to] = (reading.subject === 'cold-holding' ? STORE_C : WATER_C).map((value) =>
    inUnit({ value, unit: 'C' }, temperature.unit)
  ) as [number, number]
  const { value, unit } = temperature
  return value >= from && value <= to ? plain : [...plain, { quantity: 'temperature', value, unit, from, to }]
}
