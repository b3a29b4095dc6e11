/** A recipe, or why there is none, in words for whoever mixes. */
import { MEASURES, measuresOf, type MeasureId } from './measure.ts'
import { mix, type Mix, type Order } from './mix.ts'
import type { SanitizerWords } from './words.en.ts'

type Recipe = Extract<Mix, { kind: 'recipe' }>

/** An amount in whole steps of a measure, with what it makes, ppm. */
export interface MeasuredDose {
  readonly id: MeasureId
  readonly text: string
  readonly resultPpm: number
  readonly resultHighPpm: number
}

/** The measures in which a whole number of steps stays between target and cap. */
export function doseChoices(order: Order, of: Recipe['of'], words: SanitizerWords): readonly MeasuredDose[] {
  return measuresOf(of).flatMap((id) => {
    const tried = mix({ ...order, measure: id })
    return tried.kind === 'recipe' && tried.dose !== null && tried.dose.count <= MEASURES[id].most
      ? [{ id, text: words.dose(id, tried.dose.count), resultPpm: tried.result.low, resultHighPpm: tried.result.high }]
      : []
  })
}

/** The amount as it is to be measured: in the chosen measure, or exactly. */
export function doseOf(
  { amount, of, dose }: Recipe,
  words: SanitizerWords
): { id: MeasureId; count: number; text: string } {
  const exact = ({ volume: 'ml', mass: 'g', count: 'tablet' } as const)[of]
  return dose === null
    ? { id: exact, count: amount, text: words.dose(exact, Number(amount.toPrecision(4))) }
    : { id: dose.measure, count: dose.count, text: words.dose(dose.measure, dose.count) }
}

/** What whoever mixes should know about the recipe, beside its amount. */
export function recipeNotes(
  { guess }: Recipe,
  { product, targetPpm }: Order,
  minimum: number | null,
  words: SanitizerWords
): string[] {
  return [
    ...(minimum !== null && targetPpm < minimum ? [words.belowMinimum(product.agent, minimum)] : []),
    ...(guess === null ? [] : [words.guess(guess)])
  ]
}

export function recipeLines(recipe: Recipe, order: Order, minimum: number | null, words: SanitizerWords): string[] {
  const { dose, of, result } = recipe
  const choices = dose === null ? doseChoices(order, of, words) : []
  return [
    words.recipe(doseOf(recipe, words).text, order.milliliters / 1000),
    words.makes(result.low, result.high),
    ...recipeNotes(recipe, order, minimum, words),
    ...(dose === null ? [words.inMeasures(choices.map((one) => [one.text, one.resultHighPpm]))] : []),
    words.readStrip,
    words.labelFirst
  ]
}

export function refusalLine(
  mixed: Exclude<Mix, { kind: 'recipe' }>,
  measure: MeasureId | null,
  words: SanitizerWords
): string {
  switch (mixed.kind) {
    case 'over-cap':
      return words.overCap(mixed.capPpm)
    case 'density-missing':
      return words.densityMissing
    case 'density-too-vague':
      return words.densityTooVague(mixed.capPpm, mixed.highPpm)
    case 'stock-too-weak':
      return words.stockTooWeak(mixed.stockPpm)
    case 'wrong-measure':
      return words.wrongMeasure(mixed.fitting)
    case 'no-step-fits':
      return words.noStepFits(measure ?? 'ml', mixed.below, mixed.above, mixed.fitting)
  }
}
