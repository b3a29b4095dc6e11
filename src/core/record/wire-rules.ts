/** The shape of rule sets as they travel; checked on the page, which did not read their files. */
import * as v from 'valibot'
import {
  AGENTS,
  ASPECTS,
  CONVENTIONS,
  PLAIN_QUANTITIES,
  STATUSES,
  SUBJECTS,
  type RuleSet
} from '../sanitizer/rule-set.ts'

const limit = v.nullable(v.pipe(v.number(), v.finite()))
const bounds = { min: limit, max: limit }

const demand = v.variant('quantity', [
  v.object({ quantity: v.picklist(PLAIN_QUANTITIES), ...bounds }),
  v.object({ quantity: v.literal('temperature'), C: v.nullable(v.object(bounds)), F: v.nullable(v.object(bounds)) }),
  v.object({ quantity: v.literal('clear') })
])

const figure = v.pipe(v.number(), v.finite(), v.minValue(0))
const cited = { source: v.string(), edition: v.string(), status: v.picklist(STATUSES) }
const agent = v.picklist(AGENTS)
const quantities = v.array(v.picklist([...PLAIN_QUANTITIES, 'temperature', 'clear']))

const product = v.variant('form', [
  v.object({
    form: v.literal('liquid'),
    agent,
    percent: figure,
    convention: v.picklist([...CONVENTIONS, 'unstated']),
    density: v.nullable(figure)
  }),
  v.object({ form: v.literal('powder'), agent, percent: figure }),
  v.object({ form: v.literal('tablet'), agent, milligrams: figure })
])

const ruleSet = v.object({
  id: v.string(),
  kind: v.picklist(['jurisdiction', 'label']),
  title: v.string(),
  otherwise: v.nullable(v.string()),
  limits: v.array(
    v.object({
      subject: v.picklist(SUBJECTS),
      aspect: v.picklist(ASPECTS),
      rows: v.array(v.array(demand)),
      labelMaySet: quantities,
      labelMustSet: quantities,
      ...cited
    })
  ),
  duties: v.array(v.object({ say: v.string(), everySeconds: v.nullable(figure), ...cited })),
  product: v.nullable(product)
})

const rulesAnswer = v.object({
  chosen: v.nullable(v.object({ rules: v.string(), labels: v.array(v.string()) })),
  shelf: v.array(ruleSet)
})

type Same<A, B> = [A] extends [B] ? ([B] extends [A] ? true : never) : never
type Writable<T> = T extends readonly (infer Item)[]
  ? Writable<Item>[]
  : T extends object
    ? { -readonly [Key in keyof T]: Writable<T[Key]> }
    : T
/** Fails to compile when the shape here and the type in core/sanitizer part ways. @public */
export const RULE_SET_SHAPE_MATCHES_TYPE: Same<v.InferOutput<typeof ruleSet>, Writable<RuleSet>> = true

/** Null when it is no such answer; unknown extra fields are dropped. */
export function readRulesAnswer(value: unknown): v.InferOutput<typeof rulesAnswer> | null {
  const parsed = v.safeParse(rulesAnswer, value)
  return parsed.success ? parsed.output : null
}
