/**
 * Rules of thumb for hypochlorite that are in print, to show how far off they are. None of them is used for mixing: the
 * label percent is. Strengths are as published, in ppm.
 */
import type { Strength } from './stock.ts'
import { VOLUME_ML, type VolumeUnit } from './unit.ts'

export interface HouseholdRecipe {
  readonly id: string
  /** Label percent the recipe is meant for; both ends where it says household product only. */
  readonly percent: readonly [low: number, high: number]
  readonly product: readonly [count: number, unit: VolumeUnit]
  readonly water: readonly [count: number, unit: VolumeUnit]
  readonly publishedPpm: number
  readonly source: string
}

export interface ComparedRecipe {
  /** Percent times 10,000, as the publishers reckon; poured into the water, so that both volumes count. */
  readonly made: Strength
  /** The same where the percent is of the compound by weight, at the density of water. */
  readonly madeByWeight: Strength
  /** Made over published. */
  readonly ratio: Strength
  readonly verdict: 'as-published' | 'weaker' | 'stronger'
  readonly overCap: boolean
}

const HOUSEHOLD = [5.25, 8.25] as const
const MEMO = 'Interpretive memo 13-01 of a state health division, 4 September 2013'
const WASHINGTON = 'Washington State Department of Health 970-216, January 2015'
const KANSAS = 'Kansas Department of Health and Environment, page on disinfecting'
const OTTAWA = 'Ottawa public health sheet; Simcoe Muskoka page'

const recipe = (
  id: string,
  percent: HouseholdRecipe['percent'] | number,
  product: HouseholdRecipe['product'],
  water: HouseholdRecipe['water'],
  publishedPpm: number,
  source: string
): HouseholdRecipe => ({
  id,
  percent: typeof percent === 'number' ? [percent, percent] : percent,
  product,
  water,
  publishedPpm,
  source
})

export const HOUSEHOLD_RECIPES: readonly HouseholdRecipe[] = [
  recipe('memo-gallon-50', 8.25, [1 / 2, 'tsp-us'], [1, 'gal-us'], 50, MEMO),
  recipe('memo-gallon-100', 8.25, [1, 'tsp-us'], [1, 'gal-us'], 100, MEMO),
  recipe('memo-gallon-200', 8.25, [2, 'tsp-us'], [1, 'gal-us'], 200, MEMO),
  recipe('memo-quart-50', 8.25, [1 / 8, 'tsp-us'], [1, 'qt-us'], 50, MEMO),
  recipe('memo-quart-100', 8.25, [1 / 4, 'tsp-us'], [1, 'qt-us'], 100, MEMO),
  recipe('memo-quart-200', 8.25, [1 / 2, 'tsp-us'], [1, 'qt-us'], 200, MEMO),
  recipe('memo-pint-50', 8.25, [1 / 16, 'tsp-us'], [1, 'pt-us'], 50, MEMO),
  recipe('memo-pint-100', 8.25, [1 / 8, 'tsp-us'], [1, 'pt-us'], 100, MEMO),
  recipe('memo-pint-200', 8.25, [1 / 4, 'tsp-us'], [1, 'pt-us'], 200, MEMO),
  recipe('washington-8', 8.25, [1, 'tsp-us'], [1, 'gal-us'], 100, WASHINGTON),
  recipe('washington-5', [5.25, 6.25], [2, 'tsp-us'], [1, 'gal-us'], 100, WASHINGTON),
  recipe('washington-2-gallon', 2.75, [1, 'tbsp-us'], [1, 'gal-us'], 100, WASHINGTON),
  recipe('washington-2-quart', 2.75, [1, 'tsp-us'], [1, 'qt-us'], 100, WASHINGTON),
  recipe('kansas-gallon', 5.25, [1, 'floz-us'], [1, 'gal-us'], 410, KANSAS),
  recipe('kansas-thousand', 5.25, [122, 'floz-us'], [1000, 'gal-us'], 50, KANSAS),
  recipe('operator-training', 12.5, [0.88, 'gal-us'], [550, 'gal-us'], 200, 'Example of an operator training'),
  recipe('logan-4', 4, [12.5, 'ml'], [100, 'l'], 5, 'Logan City Council, Queensland'),
  recipe('logan-12', 12.5, [4, 'ml'], [100, 'l'], 5, 'Logan City Council, Queensland'),
  recipe('new-south-wales', 12.5, [40, 'ml'], [1000, 'l'], 5, 'NSW Health ready reckoner'),
  recipe('carolina-gallon', HOUSEHOLD, [1, 'tbsp-us'], [1, 'gal-us'], 200, 'North Carolina extension service, 2004'),
  recipe('ottawa-200', 5.25, [5, 'ml'], [1, 'l'], 200, OTTAWA),
  recipe('ottawa-500', 5.25, [10, 'ml'], [1, 'l'], 500, OTTAWA),
  recipe('ottawa-1000', 5.25, [20, 'ml'], [1, 'l'], 1000, OTTAWA),
  recipe('training-page', 5, [2, 'ml'], [1, 'l'], 100, 'A food training page'),
  recipe(
    'rhode-island',
    HOUSEHOLD,
    [1, 'tsp-us'],
    [1, 'gal-us'],
    200,
    'University of Rhode Island, sanitizing solutions'
  )
]

/** Within a tenth is what a strip can tell; common practice, no source. */
const ONE_TENTH = 0.1
const HYPOCHLORITE_OVER_AVAILABLE = 1.05

/** `capPpm` is the most that may stay on without a rinse, or null. */
export function compareRecipe(recipe: HouseholdRecipe, capPpm: number | null): ComparedRecipe {
  const product = recipe.product[0] * VOLUME_ML[recipe.product[1]]
  const water = recipe.water[0] * VOLUME_ML[recipe.water[1]]
  const made = (percent: number) => (percent * 10_000 * product) / (product + water)
  const [low, high] = recipe.percent.map(made) as [number, number]
  const ratio = { low: low / recipe.publishedPpm, high: high / recipe.publishedPpm }
  return {
    made: { low, high },
    madeByWeight: { low: low / HYPOCHLORITE_OVER_AVAILABLE, high: high / HYPOCHLORITE_OVER_AVAILABLE },
    ratio,
    verdict: ratio.high > 1 + ONE_TENTH ? 'stronger' : ratio.low < 1 - ONE_TENTH ? 'weaker' : 'as-published',
    overCap: capPpm !== null && high > capPpm
  }
}
