/** The rule sets and the label that the options of a command choose. */
import { withFallbacks } from '../../src/core/sanitizer/applicable-limits.ts'
import type { RuleSet } from '../../src/core/sanitizer/rule-set.ts'
import { BadInput, type Options } from './options.ts'
import { RULE_SETS } from './shipped-rule-sets.ts'

const USUAL_RULES = 'us-food-code'

export function chosenRules(options: Options): readonly RuleSet[] {
  return withFallbacks(idOf(options, 'rules', 'jurisdiction') ?? USUAL_RULES, RULE_SETS)
}

/** The label set in the rules' folder that `--label` names, or null. */
export function chosenLabel(options: Options): RuleSet | null {
  const id = idOf(options, 'label', 'label')
  return RULE_SETS.find((one) => one.id === id) ?? null
}

function idOf(options: Options, name: string, kind: RuleSet['kind']): string | undefined {
  return options.oneOf(
    name,
    RULE_SETS.filter((one) => one.kind === kind).map(({ id }) => id)
  )
}

/** @throws BadInput */
export function required<T>(value: T | undefined, option: string): T {
  if (value === undefined) throw new BadInput(option, `--${option} is missing.`)
  return value
}
