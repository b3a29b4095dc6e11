/** What is exported or printed: one run, or the runs of a machine, a site and a span of days. */
import { shopDay } from '../../src/core/time/shop-day.ts'
import type { Records, RunRow } from '../storage/records.ts'

export interface Scope {
  readonly run: string | null
  readonly machine: string | null
  readonly site: string | null
  /** Days in the shop, `YYYY-MM-DD`, both included. */
  readonly from: string | null
  readonly to: string | null
}

export type ReadScope =
  | { readonly kind: 'scope'; readonly scope: Scope }
  | { readonly kind: 'faulty'; readonly why: string }

const DAY = /^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])$/

/** `asked` gives the value of each query parameter. An empty one counts as none. */
export function readScope(asked: (name: keyof Scope) => string | undefined): ReadScope {
  const given = (name: keyof Scope) => asked(name) || null
  const scope: Scope = {
    run: given('run'),
    machine: given('machine'),
    site: given('site'),
    from: given('from'),
    to: given('to')
  }
  const bad = (['from', 'to'] as const).find((name) => !DAY.test(scope[name] ?? '2000-01-01'))
  return bad ? { kind: 'faulty', why: `Give ${bad} as a day, such as 2026-11-28.` } : { kind: 'scope', scope }
}

/** The first begun first. A run counts to the day on which it began, by the clock of its shop. */
export async function runsInScope(records: Records, scope: Scope): Promise<readonly RunRow[]> {
  const rows = await records.runs(Number.MAX_SAFE_INTEGER)
  return rows
    .filter(({ runId, started }) => {
      const day = shopDay(started.at, started.zone) ?? ''
      return (
        (scope.run === null || runId === scope.run) &&
        (scope.machine === null || started.machine === scope.machine) &&
        (scope.site === null || started.site === scope.site) &&
        (scope.from === null || day >= scope.from) &&
        (scope.to === null || day <= scope.to)
      )
    })
    .toSorted((a, b) => a.started.at - b.started.at)
}

/** Part of a file name: letters and digits of any language, the rest as hyphens. */
export function scopeName({ run, machine, site, from, to }: Scope): string {
  const parts = [run, machine, site, from, to].flatMap((part) => (part === null ? [] : [part]))
  return (parts.length === 0 ? 'all' : parts.join('-')).replace(/[^\p{L}\p{N}]+/gu, '-').slice(0, 80)
}
