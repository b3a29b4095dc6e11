/** How long a solution that was read has to stay on: the longest of what the rule and the label ask of it. */
import { applicableLimits, type AppliedLimit } from './applicable-limits.ts'
import { judgeRow } from './judge-row.ts'
import type { Reading } from './reading.ts'
import type { RuleSet } from './rule-set.ts'

export interface ContactNeeded {
  readonly seconds: number
  readonly applied: AppliedLimit
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
    const shortest = Math.min(
      ...fitting.map((row) => {
        const time = row.find((demand) => demand.quantity === 'seconds')
        return time?.quantity === 'seconds' && time.min !== null ? time.min : Infinity
      })
    )
    return Number.isFinite(shortest) ? [{ seconds: shortest, applied }] : []
  })
  return times.toSorted((one, other) => other.seconds - one.seconds)[0] ?? null
}
