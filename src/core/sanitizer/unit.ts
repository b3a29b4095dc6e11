/** Units a crew reads off, types or says, each with what it is in the unit we reckon with. */

/** Household measures differ from place to place, so a cup or a spoon always names its system. */
export const UNIT_SYSTEMS = ['us', 'imperial', 'metric', 'australian'] as const
export type UnitSystem = (typeof UNIT_SYSTEMS)[number]

/** Exact: 231 cubic inches of 2.54 cm each (NIST Handbook 44, Appendix C). */
const US_GALLON_ML = 3785.411784
/** Exact: 4.54609 L (Weights and Measures Act 1985, from memory). */
const IMPERIAL_GALLON_ML = 4546.09
const US_FLUID_OUNCE_ML = US_GALLON_ML / 128
const IMPERIAL_FLUID_OUNCE_ML = IMPERIAL_GALLON_ML / 160

/**
 * Millilitres. US: NIST Handbook 44, Appendix C. Metric spoons and cup, and the imperial cup and spoons: common
 * practice, from memory. Australian tablespoon of 20 mL: as secondary pages give it.
 */
export const VOLUME_ML = {
  ml: 1,
  l: 1000,
  'gal-us': US_GALLON_ML,
  'qt-us': US_GALLON_ML / 4,
  'pt-us': US_GALLON_ML / 8,
  'cup-us': US_FLUID_OUNCE_ML * 8,
  'floz-us': US_FLUID_OUNCE_ML,
  'tbsp-us': US_FLUID_OUNCE_ML / 2,
  'tsp-us': US_FLUID_OUNCE_ML / 6,
  'gal-imperial': IMPERIAL_GALLON_ML,
  'qt-imperial': IMPERIAL_GALLON_ML / 4,
  'pt-imperial': IMPERIAL_GALLON_ML / 8,
  'cup-imperial': IMPERIAL_FLUID_OUNCE_ML * 10,
  'floz-imperial': IMPERIAL_FLUID_OUNCE_ML,
  'tbsp-imperial': (IMPERIAL_FLUID_OUNCE_ML * 5) / 8,
  'tsp-imperial': (IMPERIAL_FLUID_OUNCE_ML * 5) / 24,
  'cup-metric': 250,
  'tbsp-metric': 15,
  'tsp-metric': 5,
  'cup-australian': 250,
  'tbsp-australian': 20,
  'tsp-australian': 5
} as const

export type VolumeUnit = keyof typeof VOLUME_ML

/** Grams. Avoirdupois pound of 453.59237 g, exactly (NIST Handbook 44, Appendix C). */
export const MASS_G = { g: 1, kg: 1000, mg: 0.001, lb: 453.59237 } as const
export type MassUnit = keyof typeof MASS_G

/** A trade percent is a gram in 100 mL; in water as thin as a sanitizer, a milligram in a litre is a part per million. */
export const STRENGTH_PPM = { ppm: 1, 'mg/L': 1, '%': 10_000 } as const
export type StrengthUnit = keyof typeof STRENGTH_PPM

export function isVolumeUnit(name: string): name is VolumeUnit {
  return Object.hasOwn(VOLUME_ML, name)
}
