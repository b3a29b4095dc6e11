/** From the text of a rule set's file to a rule set, or to problems its author can find and mend. */
import * as v from 'valibot'
import { explainShape } from '../procedure/explain-shape.ts'
import type { PlacedProblem } from '../procedure/problem.ts'
import { readYaml } from '../procedure/read-yaml.ts'
import { checkRuleSet } from './check-rule-set.ts'
import { ruleSetFormat } from './rule-set-format.ts'
import { ruleSetFromAuthored } from './rule-set-from-authored.ts'
import type { RuleSet } from './rule-set.ts'

export type ReadRuleSet =
  | { readonly kind: 'read'; readonly ruleSet: RuleSet }
  | { readonly kind: 'faulty'; readonly problems: readonly PlacedProblem[] }

const GUIDE = {
  page: 'procedures/rules/README.md',
  examples: {
    rules: 'rules: our-county',
    kind: 'kind: jurisdiction, or kind: label',
    title: 'title: Food code of our county',
    for: 'for: chlorine',
    limit: 'limit: solution',
    'any of': 'any of: with - strength: at least 50 ppm below it.',
    source: 'source: Section 12, seen at the county office',
    edition: 'edition: 2024',
    status: 'status: read',
    say: 'say: Take the machine apart and clean it.',
    agent: 'agent: chlorine',
    form: 'form: liquid'
  }
}

export function readRuleSet(yamlText: string): ReadRuleSet {
  const yaml = readYaml(yamlText, {
    split: 'Split it into several rule sets.',
    begin: 'Begin with rules: and a short name, or copy one of the files in procedures/rules/ and change it.'
  })
  if (yaml.kind === 'faulty') return yaml
  const shape = v.safeParse(ruleSetFormat, yaml.value)
  const problems = shape.success
    ? checkRuleSet(shape.output)
    : shape.issues.flatMap((issue) => explainShape(issue, GUIDE))
  if (problems.length > 0 || !shape.success) return { kind: 'faulty', problems: yaml.placed(problems) }
  return { kind: 'read', ruleSet: ruleSetFromAuthored(shape.output) }
}
