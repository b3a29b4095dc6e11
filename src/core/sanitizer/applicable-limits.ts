/** Which limits a reading is held to: the jurisdiction's, aspect by aspect, and all of the label's beside them. */
import type { Aspect, Demand, Limit, Quantity, Row, RuleSet, Subject } from './rule-set.ts'

export interface AppliedLimit {
  readonly ruleSet: Pick<RuleSet, 'id' | 'kind' | 'title'>
  readonly limit: Limit
}

export interface ApplicableLimits {
  readonly limits: readonly AppliedLimit[]
  /** Aspects that must be judged and for which there is no limit anywhere. */
  readonly lacking: readonly Aspect[]
  /** What a limit leaves to the label and the label does not say. */
  readonly labelLacks: readonly { readonly quantity: Quantity; readonly applied: AppliedLimit }[]
}

const ASPECTS_OF_AGENT: readonly Aspect[] = ['solution', 'contact', 'cap']
const ASPECTS_OF: Readonly<Record<Subject, readonly Aspect[]>> = {
  chlorine: ASPECTS_OF_AGENT,
  iodine: ASPECTS_OF_AGENT,
  quat: ASPECTS_OF_AGENT,
  'hot-water': ['temperature'],
  'hot-water-machine': ['temperature'],
  'cold-holding': ['temperature'],
  'handwash-water': ['temperature'],
  'wash-water': ['temperature'],
  'heat-treatment': ['temperature'],
  rinse: ['look']
}

/** The chosen rule set and those that hold where it is silent, in that order. Unknown ids end the chain. */
export function withFallbacks(id: string, shelf: readonly RuleSet[]): readonly RuleSet[] {
  const chain: RuleSet[] = []
  let next: string | null = id
  while (next !== null) {
    const found = shelf.find((one) => one.id === next)
    if (found === undefined || chain.includes(found)) break
    chain.push(found)
    next = found.otherwise
  }
  return chain
}

/** `ruleSets` as withFallbacks orders them: the first that speaks of an aspect is heard, the label in any case. */
export function applicableLimits(
  subject: Subject,
  ruleSets: readonly RuleSet[],
  label: RuleSet | null
): ApplicableLimits {
  const labelLimits = label === null ? [] : limitsIn(label, subject)
  const labelSays = (quantity: Quantity) => labelLimits.some(({ limit }) => limit.rows.some(speaksOf(quantity)))
  const lawful = ASPECTS_OF[subject].flatMap((aspect) => {
    const speaking = ruleSets.map((ruleSet) => limitsOf(ruleSet, subject, aspect)).find(({ length }) => length > 0)
    return speaking ?? []
  })
  const limits = [...lawful.map((applied) => withoutSetByLabel(applied, labelSays)), ...labelLimits]
  const labelLacks = lawful.flatMap((applied) =>
    applied.limit.labelMustSet.filter((quantity) => !labelSays(quantity)).map((quantity) => ({ quantity, applied }))
  )
  const isJudged = (aspect: Aspect) =>
    aspect === 'solution'
      ? labelLacks.length > 0 || limits.some(({ limit }) => limit.rows.every(speaksOf('ppm')))
      : limits.some(({ limit }) => limit.aspect === aspect)
  return {
    limits,
    lacking: ASPECTS_OF[subject].filter((aspect) => aspect !== 'cap' && !isJudged(aspect)),
    labelLacks
  }
}

/** A strength that is only held down says nothing of how weak it may be. */
function speaksOf(quantity: Quantity): (row: Row) => boolean {
  return (row) =>
    row.some((demand) => demand.quantity === quantity && (demand.quantity !== 'ppm' || demand.min !== null))
}

function limitsIn(ruleSet: RuleSet, subject: Subject): AppliedLimit[] {
  return ruleSet.limits.filter((limit) => limit.subject === subject).map((limit) => ({ ruleSet, limit }))
}

function limitsOf(ruleSet: RuleSet, subject: Subject, aspect: Aspect): AppliedLimit[] {
  return limitsIn(ruleSet, subject).filter(({ limit }) => limit.aspect === aspect)
}

function withoutSetByLabel(applied: AppliedLimit, labelSays: (quantity: Quantity) => boolean): AppliedLimit {
  const free = ({ quantity }: Demand) => applied.limit.labelMaySet.includes(quantity) && labelSays(quantity)
  const rows = applied.limit.rows.map((row) => row.filter((demand) => !free(demand)))
  return { ...applied, limit: { ...applied.limit, rows } }
}
