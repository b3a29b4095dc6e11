/** The most and the least that every limit of a strength leaves open. */
import { applicableLimits } from './applicable-limits.ts'
import type { Agent, RuleSet } from './rule-set.ts'

/** ppm; null where no limit says anything. */
export interface StrengthCaps {
  readonly cap: number | null
  readonly minimum: number | null
}

/** The minimum is the weakest that any row of the strictest limit allows, under whatever conditions. */
export function strengthCaps(agent: Agent, ruleSets: readonly RuleSet[], label: RuleSet | null): StrengthCaps {
  const strengths = applicableLimits(agent, ruleSets, label).limits.flatMap(({ limit }) =>
    limit.aspect === 'contact' ? [] : [limit.rows.flatMap((row) => row.filter(({ quantity }) => quantity === 'ppm'))]
  )
  const maxima = strengths.flatMap((row) => row.flatMap((one) => ('max' in one ? (one.max ?? []) : [])))
  const minima = strengths.flatMap((row) => {
    const least = row.flatMap((one) => ('min' in one ? (one.min ?? []) : []))
    return least.length === 0 ? [] : [Math.min(...least)]
  })
  return {
    cap: maxima.length === 0 ? null : Math.min(...maxima),
    minimum: minima.length === 0 ? null : Math.max(...minima)
  }
}
