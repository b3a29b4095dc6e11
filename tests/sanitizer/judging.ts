/** Short ways to judge readings by the shipped rule sets. */
import { withFallbacks } from '../../src/core/sanitizer/applicable-limits.ts'
import { judge, type Judgement } from '../../src/core/sanitizer/judge.ts'
import type { Reading } from '../../src/core/sanitizer/reading.ts'
import type { Demand, Limit, RuleSet } from '../../src/core/sanitizer/rule-set.ts'
import { RULE_SETS } from './shipped-rule-sets.ts'

export const rulesNamed = (id: string) => withFallbacks(id, RULE_SETS)

export const judgedBy = (id: string, reading: Reading, label: RuleSet | null = null): Judgement =>
  judge(reading, rulesNamed(id), label)

export const celsius = (value: number) => ({ value, unit: 'C' as const })
export const fahrenheit = (value: number) => ({ value, unit: 'F' as const })

/** What is out, such as `temperature below 38`. */
export const outOf = (judgement: Judgement) =>
  judgement.verdict === 'out'
    ? judgement.out.map(({ quantity, side, bound }) => `${quantity} ${side} ${Number(bound.toFixed(4))}`)
    : []

export const missingIn = (judgement: Judgement) =>
  judgement.verdict === 'unknown'
    ? judgement.missing.map((one) => `${one.kind} ${one.kind === 'limit' ? one.aspect : one.quantity}`)
    : []

export interface LabelFigures {
  readonly ppm?: number
  readonly maxPpm?: number
  readonly seconds?: number
  readonly maxPh?: number
  readonly maxHardness?: number
}

export function aLabel(subject: Limit['subject'], figures: LabelFigures): RuleSet {
  const limit = (aspect: Limit['aspect'], row: Demand[]): Limit[] =>
    row.length === 0
      ? []
      : [
          {
            subject,
            aspect,
            rows: [row],
            labelMaySet: [],
            labelMustSet: [],
            source: 'Label of an invented product',
            edition: 'invented',
            status: 'read'
          }
        ]
  const { ppm, maxPpm, seconds, maxPh, maxHardness } = figures
  const solution: Demand[] = [
    ...(ppm === undefined && maxPpm === undefined
      ? []
      : [{ quantity: 'ppm' as const, min: ppm ?? null, max: maxPpm ?? null }]),
    ...(maxPh === undefined ? [] : [{ quantity: 'ph' as const, min: null, max: maxPh }]),
    ...(maxHardness === undefined ? [] : [{ quantity: 'hardness' as const, min: null, max: maxHardness }])
  ]
  const contact: Demand[] = seconds === undefined ? [] : [{ quantity: 'seconds', min: seconds, max: null }]
  return {
    id: 'label',
    kind: 'label',
    title: 'Invented product',
    otherwise: null,
    limits: [...limit('solution', solution), ...limit('contact', contact)],
    duties: [],
    product: null
  }
}
