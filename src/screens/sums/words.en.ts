/** The English texts of the page for sums, which is loaded only when it is opened. */
import type { Measured } from '../../core/sanitizer/reading.ts'
import type { Agent, Convention, Product } from '../../core/sanitizer/rule-set.ts'
import type { MixField } from '../../core/sanitizer/mix-sum.ts'

const AGENTS: Readonly<Record<Agent, string>> = { chlorine: 'Chlorine', iodine: 'Iodine', quat: 'Quaternary ammonium' }
const FORMS: Readonly<Record<Product['form'], string>> = { liquid: 'Liquid', powder: 'Powder', tablet: 'Tablets' }
const CONVENTIONS: Readonly<Record<Convention, string>> = {
  weight: 'By weight of the compound',
  available: 'Available, by weight',
  trade: 'Grams available in 100 mL',
  unstated: 'The label does not say'
}
const MEASURED: Readonly<Record<Measured, string>> = {
  ppm: 'Strength, ppm',
  temperature: 'Temperature, such as 24 C or 75 F',
  ph: 'pH',
  hardness: 'Hardness of the water, mg/L (from the water works)',
  seconds: 'Contact time, seconds'
}
const FIELDS: Readonly<Record<MixField, string>> = {
  percent: 'Percent on the label',
  density: 'Density, kg/L (from the safety data sheet)',
  target: 'Strength wanted, ppm',
  volume: 'Whole batch, such as 7.6 L or 2 gal'
}

export const sumsWordsEn = {
  title: 'Mix and judge',
  noRules:
    'The rules of this shop cannot be had now, and this device has no copy of them. Come back once the server is there.',
  mix: 'How much product?',
  judge: 'Is this reading good?',
  label: 'Product',
  labelNone: 'Another product',
  rules: 'Rules',
  labels: 'Label',
  noLabel: 'No label',
  agent: 'What it is',
  form: 'Form',
  convention: 'What the percent means',
  agents: AGENTS,
  forms: FORMS,
  conventions: CONVENTIONS,
  fields: FIELDS,
  milligrams: 'Milligrams available in one tablet',
  measure: 'Measure',
  exactly: 'Exact amount',
  subject: 'What was measured',
  measured: MEASURED,
  clear: 'Look of the rinse',
  isClear: 'Clear',
  isNotClear: 'Not clear',
  incomplete: {
    mix: 'Fill in the fields, and the recipe stands here.',
    judge: 'Type what was measured, and the answer stands here.'
  },
  recipes: { good: 'Recipe', out: 'No recipe', unknown: 'Recipe, too weak to sanitize' },
  verdicts: { good: 'Good', out: 'Not good', unknown: 'Cannot be judged yet' }
}

export type SumsWords = typeof sumsWordsEn
