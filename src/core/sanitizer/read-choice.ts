/** From the text of chosen.yaml to what a shop has chosen, or to problems its author can find and mend. */
import * as v from 'valibot'
import { explainShape } from '../procedure/explain-shape.ts'
import type { PlacedProblem } from '../procedure/problem.ts'
import { readYaml } from '../procedure/read-yaml.ts'
import { choiceFormat } from './choice-format.ts'
import type { RuleSet } from './rule-set.ts'
import { choose, type ShopRules } from './shop-rules.ts'

export type ReadChoice =
  | { readonly kind: 'read'; readonly shop: ShopRules }
  | { readonly kind: 'faulty'; readonly problems: readonly PlacedProblem[] }

const GUIDE = { page: 'procedures/rules/README.md', examples: { rules: 'rules: us-food-code' } }

/** `shelf` holds every rule set and label that could be read. */
export function readChoice(yamlText: string, shelf: readonly RuleSet[]): ReadChoice {
  const yaml = readYaml(yamlText, { split: 'It needs two keys.', begin: 'Begin with rules: and the id of a rule set.' })
  if (yaml.kind === 'faulty') return yaml
  const shape = v.safeParse(choiceFormat, yaml.value)
  if (!shape.success) {
    const problems = shape.issues.flatMap((issue) => explainShape(issue, GUIDE))
    return { kind: 'faulty', problems: yaml.placed(problems) }
  }
  const chosen = choose({ rules: shape.output.rules, labels: shape.output.labels ?? [] }, shelf)
  if (chosen.kind === 'chosen') return { kind: 'read', shop: chosen.shop }
  const { key, what, mend } = chosen
  return { kind: 'faulty', problems: yaml.placed([{ path: [key], what, mend }]) }
}
