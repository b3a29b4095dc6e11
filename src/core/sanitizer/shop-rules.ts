/** What a shop has chosen to be judged by. */
import { withFallbacks } from './applicable-limits.ts'
import type { RuleSet, Subject } from './rule-set.ts'

export interface ShopRules {
  /** The chosen rule set, then those that hold where it is silent. */
  readonly ruleSets: readonly RuleSet[]
  /** Of the products in use. */
  readonly labels: readonly RuleSet[]
}

export const NO_RULES: ShopRules = { ruleSets: [], labels: [] }

export interface Choice {
  readonly rules: string
  readonly labels: readonly string[]
}

/** The label that speaks of a subject; a shop has one product for each. */
export function labelFor(subject: Subject, { labels }: ShopRules): RuleSet | null {
  return labels.find(({ limits }) => limits.some((limit) => limit.subject === subject)) ?? null
}

/** Every rule set and label that could be read, and what the shop is judged by; null where it has chosen nothing. */
export interface RulesOffered {
  readonly chosen: Choice | null
  readonly shelf: readonly RuleSet[]
}

export type Chosen =
  | { readonly kind: 'chosen'; readonly shop: ShopRules }
  | { readonly kind: 'faulty'; readonly key: 'rules' | 'labels'; readonly what: string; readonly mend: string }

export function choose({ rules, labels }: Choice, shelf: readonly RuleSet[]): Chosen {
  const ruleSets = withFallbacks(rules, shelf)
  const ids = (kind: RuleSet['kind']) => shelf.filter((one) => one.kind === kind).map(({ id }) => id)
  if (ruleSets[0]?.kind !== 'jurisdiction') return faulty('rules', rules, ids('jurisdiction'))
  const open = ruleSets.at(-1)?.otherwise ?? null
  if (open !== null && ruleSets.every(({ id }) => id !== open)) return faulty('rules', open, ids('jurisdiction'))
  const found = labels.map((id) => shelf.find((one) => one.id === id && one.kind === 'label'))
  const missing = labels[found.indexOf(undefined)]
  if (missing !== undefined) return faulty('labels', missing, ids('label'))
  const chosen = found.filter((label) => label !== undefined)
  for (const [index, label] of chosen.entries()) {
    const subjects = label.limits.map(({ subject }) => subject)
    const other = chosen.slice(0, index).find(({ limits }) => limits.some(({ subject }) => subjects.includes(subject)))
    if (other === undefined) continue
    return {
      kind: 'faulty',
      key: 'labels',
      what: `The labels "${other.id}" and "${label.id}" are for the same kind of product.`,
      mend: 'Choose the label of the product that is in use.'
    }
  }
  return { kind: 'chosen', shop: { ruleSets, labels: chosen } }
}

function faulty(key: 'rules' | 'labels', id: string, known: readonly string[]): Chosen {
  return {
    kind: 'faulty',
    key,
    what: `"${id}" is no ${key === 'rules' ? 'rule set of a jurisdiction' : 'label'} that can be read here.`,
    mend: `Choose one of: ${known.join(', ')}.`
  }
}
