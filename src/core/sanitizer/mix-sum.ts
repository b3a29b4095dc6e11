/** The sum of a batch as somebody types it at a screen: what to ask about, or the answer in words. */
import { withFallbacks } from './applicable-limits.ts'
import { recipeLines, refusalLine } from './explain-mix.ts'
import type { MeasureId } from './measure.ts'
import { mix } from './mix.ts'
import type { Agent, Convention, Product, RuleSet } from './rule-set.ts'
import { strengthCaps } from './strength-caps.ts'
import { typedNumber, typedVolume, type Typed } from './typed-fields.ts'
import type { UnitSystem } from './unit.ts'
import type { SanitizerWords } from './words.en.ts'

export interface MixFields {
  /** Id of a label on the shelf that says what is in the container; empty for what is typed below. */
  readonly label: string
  readonly agent: Agent
  readonly form: Product['form']
  /** Percent, or milligrams in one tablet. */
  readonly percent: string
  readonly convention: Convention
  readonly density: string
  readonly target: string
  readonly volume: string
  /** Empty asks for the exact amount. */
  readonly measure: MeasureId | ''
  readonly rules: string
}

export type MixField = 'percent' | 'density' | 'target' | 'volume'

export type Sum<Field extends string> =
  | { readonly kind: 'incomplete'; readonly asks: Readonly<Partial<Record<Field, string>>> }
  | { readonly kind: 'answer'; readonly tone: 'good' | 'out' | 'unknown'; readonly lines: readonly string[] }

/** Its cap holds where the chosen rules have none. */
const USUAL_RULES = 'us-food-code'
/** Nobody makes more in one vessel. Common practice, no source. */
const MOST_MILLILITERS = 100_000_000
const MOST_PPM = 1_000_000
const MOST_MILLIGRAMS = 100_000

/** `system` is what the shop's cups and spoons are. */
export function mixSum(
  fields: MixFields,
  shelf: readonly RuleSet[],
  system: UnitSystem,
  words: SanitizerWords
): Sum<MixField> {
  const label = shelf.find(({ id }) => id === fields.label) ?? null
  const percent = typedNumber(fields.percent, words, {
    above: 0,
    most: fields.form === 'tablet' ? MOST_MILLIGRAMS : 100
  })
  const density = typedNumber(fields.density, words, { above: 0.69, most: 2 })
  const target = typedNumber(fields.target, words, { above: 0, most: MOST_PPM })
  const volume = typedVolume(fields.volume, words, system, MOST_MILLILITERS)
  const ownProduct = label?.product ?? null
  const asks = {
    ...(ownProduct === null ? { ...asked('percent', percent), ...asked('density', density) } : {}),
    ...asked('target', target),
    ...asked('volume', volume)
  }
  const product = ownProduct ?? productFrom(fields, percent, density)
  if (Object.keys(asks).length > 0 || product === null || target.kind !== 'value' || volume.kind !== 'value')
    return { kind: 'incomplete', asks }
  const rules = [...withFallbacks(fields.rules, shelf), ...shelf.filter(({ id }) => id === USUAL_RULES)]
  const { cap, minimum } = strengthCaps(product.agent, rules, label)
  const measure = fields.measure === '' ? null : fields.measure
  const order = { product, targetPpm: target.value, milliliters: volume.value, capPpm: cap, measure }
  const mixed = mix(order)
  if (mixed.kind !== 'recipe') return { kind: 'answer', tone: 'out', lines: [refusalLine(mixed, measure, words)] }
  const isWeak = minimum !== null && target.value < minimum
  return { kind: 'answer', tone: isWeak ? 'unknown' : 'good', lines: recipeLines(mixed, order, minimum, words) }
}

function productFrom(
  { agent, form, convention }: MixFields,
  percent: Typed<number>,
  density: Typed<number>
): Product | null {
  if (percent.kind !== 'value') return null
  if (form === 'tablet') return { form, agent, milligrams: percent.value }
  if (form === 'powder') return { form, agent, percent: percent.value }
  return { form, agent, percent: percent.value, convention, density: density.kind === 'value' ? density.value : null }
}

function asked<Field extends string>(field: Field, typed: Typed<unknown>): Partial<Record<Field, string>> {
  return typed.kind === 'ask' ? ({ [field]: typed.text } as Partial<Record<Field, string>>) : {}
}
