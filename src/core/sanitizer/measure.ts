/** Measures a crew owns, with the parts of each that can be dosed with care. */
import { VOLUME_ML, type VolumeUnit } from './unit.ts'

/**
 * Into how many parts one can be divided with care: common practice, no source. A spoon set has quarters, a jug has
 * marks, a syringe has tenths.
 */
const PARTS: Readonly<Record<string, number>> = { ml: 1, l: 10, tbsp: 2, floz: 2 }
const QUARTERS = 4

interface Measure {
  /** Millilitres, grams or tablets in one. */
  readonly size: number
  /** The smallest amount that can be dosed is one of so many equal parts. */
  readonly parts: number
  readonly of: 'volume' | 'mass' | 'count'
  /** More of them than this nobody counts out; such a measure is not offered. */
  readonly most: number
}

const MOST: Readonly<Record<string, number>> = { ml: 2000, l: 200 }
const MOST_COUNTED = 20

/** Not units, but tools of their own: a syringe with tenths of a millilitre, a scale with tenths of a gram. */
const TOOLS = {
  syringe: { size: 1, parts: 10, of: 'volume', most: 60 },
  g: { size: 1, parts: 1, of: 'mass', most: 5000 },
  'fine-scale': { size: 1, parts: 10, of: 'mass', most: 500 },
  tablet: { size: 1, parts: 1, of: 'count', most: 500 }
} as const satisfies Readonly<Record<string, Measure>>

export type MeasureId = VolumeUnit | keyof typeof TOOLS

const volumes = Object.fromEntries(
  Object.entries(VOLUME_ML).map(([unit, size]) => {
    const [name = ''] = unit.split('-')
    return [unit, { size, parts: PARTS[name] ?? QUARTERS, of: 'volume', most: MOST[name] ?? MOST_COUNTED }]
  })
) as Record<VolumeUnit, Measure>

export const MEASURES: Readonly<Record<MeasureId, Measure>> = { ...volumes, ...TOOLS }

export function isMeasure(id: string): id is MeasureId {
  return Object.hasOwn(MEASURES, id)
}

export function measuresOf(kind: Measure['of']): MeasureId[] {
  return (Object.keys(MEASURES) as MeasureId[]).filter((id) => MEASURES[id].of === kind)
}
