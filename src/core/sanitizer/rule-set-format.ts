/**
 * The shape of a rule set as a supervisor writes it. Its JSON Schema in procedures/rules/ is made from this, so the
 * descriptions here are what an author's editor shows.
 */
import * as v from 'valibot'
import { AGENTS, CONVENTIONS, STATUSES } from './rule-set.ts'
import { SUBJECT_WORDS } from './subject-words.ts'
import { HARDNESS_PATTERN, PH_PATTERN, STRENGTH_PATTERN, TEMPERATURE_PATTERN, TIME_PATTERN } from './written-bounds.ts'

const described = <T extends v.GenericSchema>(schema: T, words: string) => v.pipe(schema, v.description(words))

const AN_ID = 'a short name in small letters, digits and hyphens that starts with a letter, such as our-county'
const EVERY_PATTERN = /^[1-9]\d{0,3} (?:hours?|days?|weeks?)$/

const patterned = (regex: RegExp, words: string) => v.pipe(v.string(words), v.regex(regex, words))
export const ruleSetId = patterned(/^[a-z][a-z0-9-]{0,63}$/, AN_ID)
const words = v.pipe(v.string('words'), v.trim(), v.minLength(1), v.maxLength(600))
const positive = (most: number) => v.pipe(v.number(), v.gtValue(0), v.maxValue(most))

const cited = {
  source: described(words, 'Section and where its text was seen.'),
  edition: described(words, 'Edition or date of the text.'),
  status: described(
    v.picklist(STATUSES),
    'How far the figure was checked: read in the rule itself, adopted-text, secondary page, or memory.'
  )
}

export const ASPECT_WORDS = {
  solution: 'solution',
  'contact time': 'contact',
  'no-rinse cap': 'cap',
  temperature: 'temperature',
  look: 'look'
} as const

export const QUANTITY_WORDS = { strength: 'ppm', pH: 'ph', hardness: 'hardness', temperature: 'temperature' } as const

const keysOf = <K extends string>(record: Readonly<Record<K, unknown>>) => Object.keys(record) as [K, ...K[]]
const quantities = v.pipe(v.array(v.picklist(keysOf(QUANTITY_WORDS))), v.minLength(1), v.maxLength(4))

const row = v.pipe(
  v.strictObject({
    strength: v.optional(
      patterned(STRENGTH_PATTERN, 'a strength such as at least 50 ppm, at most 200 ppm or 12.5 to 25 ppm')
    ),
    pH: v.optional(patterned(PH_PATTERN, 'a pH such as at most 8')),
    hardness: v.optional(patterned(HARDNESS_PATTERN, 'a hardness such as at most 500 mg/L')),
    temperature: v.optional(
      patterned(TEMPERATURE_PATTERN, 'a temperature such as at least 24 C / 75 F, or at least 171 F')
    ),
    time: v.optional(patterned(TIME_PATTERN, 'a time such as at least 30 s or at least 2 min')),
    looks: v.optional(v.picklist(['clear']))
  }),
  v.minEntries(1)
)

const limit = v.strictObject({
  for: described(v.picklist(keysOf(SUBJECT_WORDS)), 'What is measured.'),
  limit: described(
    v.picklist(keysOf(ASPECT_WORDS)),
    'Which side of it: the solution, its contact time, the most that may stay on without a rinse, a temperature, or the look.'
  ),
  'any of': v.optional(
    described(
      v.pipe(v.array(row), v.minLength(1), v.maxLength(40)),
      'The rows of the table. One is enough; all that stands in that row must be met. Bounds are inclusive. Leave it out only where all is left to the label.'
    )
  ),
  'label may set': v.optional(
    described(quantities, 'What the product label may set otherwise; its figure then counts instead.')
  ),
  'label must set': v.optional(described(quantities, 'What is left to the product label.')),
  ...cited
})

const duty = v.strictObject({
  say: described(words, 'What the rule asks for.'),
  every: v.optional(
    described(
      patterned(EVERY_PATTERN, 'a time such as 4 hours or 14 days'),
      'The longest time between two, such as 4 hours or 14 days.'
    )
  ),
  ...cited
})

const product = v.strictObject({
  agent: v.picklist(AGENTS),
  form: described(
    v.picklist(['liquid', 'powder', 'tablet']),
    'A liquid and a powder need percent, a tablet milligrams.'
  ),
  percent: v.optional(described(positive(100), 'Percent on the label.')),
  convention: v.optional(
    described(
      v.picklist(CONVENTIONS),
      'What the percent of a liquid means: weight (of the compound, by weight), trade (grams available in 100 mL) or available (of what is available, by weight). Leave it out when the label does not say.'
    )
  ),
  density: v.optional(
    described(v.pipe(positive(2), v.minValue(0.7)), 'Kilograms in a litre, from the safety data sheet.')
  ),
  milligrams: v.optional(described(positive(100_000), 'Milligrams available in one tablet.'))
})

export const ruleSetFormat = v.strictObject({
  rules: described(ruleSetId, 'The id of the rule set.'),
  kind: described(v.picklist(['jurisdiction', 'label']), 'A jurisdiction, or a product label.'),
  title: words,
  otherwise: v.optional(described(ruleSetId, 'The id of the rule set that holds for what this one says nothing of.')),
  product: v.optional(described(product, 'On a label: what is in the container.')),
  limits: v.optional(v.pipe(v.array(limit), v.minLength(1), v.maxLength(100))),
  duties: v.optional(v.pipe(v.array(duty), v.minLength(1), v.maxLength(100)))
})

export type AuthoredRuleSet = v.InferOutput<typeof ruleSetFormat>
export type AuthoredLimit = v.InferOutput<typeof limit>
export type AuthoredRow = v.InferOutput<typeof row>
