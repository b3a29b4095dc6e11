/** The author's limits in the unit that was read. */
import type { Bound, Check, ReadingUnit } from '../procedure/procedure.ts'
import { inUnit, type TemperatureUnit } from '../sanitizer/temperature.ts'

export type ReadingCheck = Extract<Check, { kind: 'reading' }>

const SCALES: Readonly<Partial<Record<ReadingUnit, TemperatureUnit>>> = { Cel: 'C', '[degF]': 'F' }

/** The scale that a temperature asked for in `unit` may be read in as well; null for everything else. */
export function otherScale(unit: ReadingUnit): ReadingUnit | null {
  return unit === 'Cel' ? '[degF]' : unit === '[degF]' ? 'Cel' : null
}

/** Celsius and Fahrenheit as the FDA Food Code 2022 pairs them: the same limit to the letter, though not quite by sum. */
const FOOD_CODE_PAIRS: readonly (readonly [celsius: number, fahrenheit: number])[] = [
  [5, 41],
  [7, 45],
  [13, 55],
  [21, 70],
  [24, 75],
  [38, 100],
  [43, 110],
  [49, 120],
  [57, 135],
  [63, 145],
  [68, 155],
  [74, 165],
  [77, 171],
  [82, 180]
]

/**
 * In the other scale a limit is its pair of the Food Code, or else the nearest whole degree that is on the safe side.
 * Null: what is asked for cannot be read in that unit.
 */
export function boundIn(
  { unit, min, max }: Pick<ReadingCheck, 'unit' | 'min' | 'max'>,
  read: ReadingUnit
): Bound | null {
  if (read === unit) return { unit, min, max }
  const [from, to] = [SCALES[unit], SCALES[read]]
  if (!from || !to) return null
  const limit = (value: number | null, safely: (exact: number) => number) =>
    value === null ? null : (pairOf(value, from) ?? safely(exactly(inUnit({ value, unit: from }, to))))
  return { unit: read, min: limit(min, Math.ceil), max: limit(max, Math.floor) }
}

function pairOf(value: number, from: TemperatureUnit): number | null {
  const pair = FOOD_CODE_PAIRS.find(([celsius, fahrenheit]) => value === (from === 'C' ? celsius : fahrenheit))
  return pair?.[from === 'C' ? 1 : 0] ?? null
}

/** 55.00000000000001 is 55. */
function exactly(value: number): number {
  return Number(value.toFixed(6))
}
