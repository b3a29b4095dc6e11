/** Measures a crew owns, with the parts of each that can be dosed with care. */
import { VOLUME_ML, type VolumeUnit } from './unit.ts'

/**
 * Into how many parts one can be divided with care: common practice, no source. A spoon set has quarters, a jug has
 * marks, a syringe has tenths.
 */
const PARTS = {
  ml: 1,
  'tsp-us': 4,
  'tbsp-us': 2,
  'cup-us': 4,
  'floz-us': 2,
  'pt-us': 4,
  'qt-us': 4,
  'gal-us': 4,
  'tsp-metric': 4,
  'tbsp-metric': 2,
  'cup-metric': 4,
  'tsp-imperial': 4,
  'tbsp-imperial': 2,
  'cup-imperial': 4,
  'floz-imperial': 2,
  'pt-imperial': 4,
  'qt-imperial': 4,
  'gal-imperial': 4,
  'tsp-australian': 4,
  'tbsp-australian': 2,
  'cup-australian': 4,
  l: 10
} as const satisfies Partial<Record<VolumeUnit, number>>

interface Measure {
  /** Millilitres, grams or tablets in one. */
  readonly size: number
  /** The smallest amount that can be dosed is one of so many equal parts. */
  readonly parts: number
  readonly of: 'volume' | 'mass' | 'count'
  /** More of them than this nobody counts out; such a measure is not offered. */
  readonly most: number
}

const MOST_COUNTED = 20

const volumes = Object.fromEntries(
  (Object.keys(PARTS) as (keyof typeof PARTS)[]).map((unit) => [
    unit,
    { size: VOLUME_ML[unit], parts: PARTS[unit], of: 'volume', most: MOST_COUNTED }
  ])
) as Record<keyof typeof PARTS, Measure>

export const MEASURES = {
  ...volumes,
  ml: { ...volumes.ml, most: 2000 },
  l: { ...volumes.l, most: 200 },
  /** A syringe with tenths of a millilitre. */
  syringe: { size: 1, parts: 10, of: 'volume', most: 60 },
  g: { size: 1, parts: 1, of: 'mass', most: 5000 },
  /** A scale that shows tenths of a gram. */
  'fine-scale': { size: 1, parts: 10, of: 'mass', most: 500 },
  tablet: { size: 1, parts: 1, of: 'count', most: 500 }
} as const satisfies Readonly<Record<string, Measure>>

export type MeasureId = keyof typeof MEASURES

export function isMeasure(id: string): id is MeasureId {
  return Object.hasOwn(MEASURES, id)
}

export function measuresOf(kind: Measure['of']): MeasureId[] {
  return (Object.keys(MEASURES) as MeasureId[]).filter((id) => MEASURES[id].of === kind)
}
