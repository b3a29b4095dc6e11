/** How long a solution that was read has to stay on: the longest of what the rule and the label ask of it. */
import { applicableLimits, type AppliedLimit } from './applicable-limits.ts'
import { judgeRow } from './judge-row.ts'
import type { Reading } from './reading.ts'
import type { Row, RuleSet, Subject } from './rule-set.ts'

export interface ContactNeeded {
  readonly seconds: number
  readonly applied: AppliedLimit
}

/** Whatever is measured: where each row has conditions, the longest of them. */
export function contactInAnyCase(
  subject: Subject,
  ruleSets: readonly RuleSet[],
  label: RuleSet | null
): ContactNeeded | null {
  const times = applicableLimits(subject, ruleSets, label).limits.flatMap((applied) => {
    const { rows } = applied.limit
    const unconditional = rows.filter(({ length }) => length === 1).flatMap(leastSeconds)
    const seconds = unconditional.length > 0 ? Math.min(...unconditional) : Math.max(...rows.flatMap(leastSeconds))
    return Number.isFinite(seconds) ? [{ seconds, applied }] : []
  })
  return times.toSorted((one, other) => other.seconds - one.seconds)[0] ?? null
}

function leastSeconds(row: Row): readonly number[] {
  return row.flatMap((demand) => (demand.quantity === 'seconds' && demand.min !== null ? [demand.min] : []))
}

/** Null when no limit names a time that fits the reading. What was not measured never shortens the time. */
export function contactNeeded(
  reading: Reading,
  ruleSets: readonly RuleSet[],
  label: RuleSet | null
): ContactNeeded | null {
  const { limits } = applicableLimits(reading.subject, ruleSets, label)
  const times = limits.flatMap((applied) => {
    const fitting = applied.limit.rows.filter((row) => judgeRow(row, { ...reading, seconds: 'later' }).kind === 'met')
    const shortest = Math.min(...fitting.flatMap(leastSeconds))
    return Number.isFinite(shortest) ? [{ seconds: shortest, applied }] : []
  })
  return times.toSorted((one, other) => other.seconds - one.seconds)[0] ?? null
}
