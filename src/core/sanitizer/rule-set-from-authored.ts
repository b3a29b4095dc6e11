/** From the form a supervisor writes to the form the program judges with. */
import {
  ASPECT_WORDS,
  QUANTITY_WORDS,
  type AuthoredLimit,
  type AuthoredRow,
  type AuthoredRuleSet
} from './rule-set-format.ts'
import type { Demand, Duty, Limit, Product, Row, RuleSet } from './rule-set.ts'
import { SUBJECT_WORDS } from './subject-words.ts'
import { plainBounds, temperatureBounds } from './written-bounds.ts'

export function ruleSetFromAuthored(authored: AuthoredRuleSet): RuleSet {
  return {
    id: authored.rules,
    kind: authored.kind,
    title: authored.title,
    otherwise: authored.otherwise ?? null,
    limits: (authored.limits ?? []).map(limitFrom),
    duties: (authored.duties ?? []).map(dutyFrom),
    product: productFrom(authored.product)
  }
}

function limitFrom(limit: AuthoredLimit): Limit {
  return {
    subject: SUBJECT_WORDS[limit.for],
    aspect: ASPECT_WORDS[limit.limit],
    rows: (limit['any of'] ?? [{}]).map(rowFrom),
    labelMaySet: (limit['label may set'] ?? []).map((word) => QUANTITY_WORDS[word]),
    labelMustSet: (limit['label must set'] ?? []).map((word) => QUANTITY_WORDS[word]),
    source: limit.source,
    edition: limit.edition,
    status: limit.status
  }
}

export function rowFrom(row: AuthoredRow): Row {
  const demands: (Demand | null)[] = [
    row.strength === undefined ? null : { quantity: 'ppm', ...plainBounds(row.strength) },
    row.temperature === undefined ? null : { quantity: 'temperature', ...temperatureBounds(row.temperature) },
    row.pH === undefined ? null : { quantity: 'ph', ...plainBounds(row.pH) },
    row.hardness === undefined ? null : { quantity: 'hardness', ...plainBounds(row.hardness) },
    row.time === undefined ? null : { quantity: 'seconds', ...plainBounds(row.time) },
    row.looks === undefined ? null : { quantity: 'clear' }
  ]
  return demands.filter((demand) => demand !== null)
}

const HOUR = 3600
const SECONDS_IN = { hour: HOUR, day: 24 * HOUR, week: 7 * 24 * HOUR } as const

function dutyFrom({ say, every, ...cited }: NonNullable<AuthoredRuleSet['duties']>[number]): Duty {
  const [count = '', unit = ''] = (every ?? '').split(' ')
  const one = SECONDS_IN[unit.replace(/s$/, '') as keyof typeof SECONDS_IN]
  return { say, everySeconds: every === undefined ? null : Number(count) * one, ...cited }
}

/** What is missing in a product is told by check-rule-set, which looks at the written form first. */
function productFrom(product: AuthoredRuleSet['product']): Product | null {
  if (product === undefined) return null
  const { agent, form, percent = 0, milligrams = 0, convention = 'unstated', density = null } = product
  if (form === 'tablet') return { form, agent, milligrams }
  if (form === 'powder') return { form, agent, percent }
  return { form, agent, percent, convention, density }
}
