/**
 * Whether a newer export goes on from an older one. Where both have the same link at a place, everything before it is the
 * same in both, since each link binds the one before; so one place is enough, and the last that both have says most.
 */
import { checkExport, type Checked, type CheckTools } from './check-export.ts'
import type { Export } from './export-format.ts'

export type SiteCompared = { readonly site: string } &
  /** All of the older one stands in the newer, which has `added` places more. */
  (
    | { readonly kind: 'continued'; readonly place: number; readonly added: number; readonly otherKey: string | null }
    /** From `place` on, or before it, the newer one tells something else. */
    | { readonly kind: 'changed'; readonly place: number }
    /** The newer one ends before the older does: entries were cut off, or it is of fewer runs, or the two were swapped. */
    | { readonly kind: 'ends-earlier'; readonly place: number; readonly before: number }
    /** No place is in both. */
    | { readonly kind: 'apart' }
  )

export type Compared =
  | { readonly kind: 'compared'; readonly sites: readonly SiteCompared[] }
  /** One of them is no whole export by itself. */
  | {
      readonly kind: 'broken'
      readonly which: 'older' | 'newer'
      readonly checked: Extract<Checked, { kind: 'broken' }>
    }

type Chain = Export['chains'][number]

export function compareExports(older: unknown, newer: unknown, tools: CheckTools): Compared {
  for (const [which, value] of [['older', older] as const, ['newer', newer] as const]) {
    const checked = checkExport(value, tools)
    if (checked.kind === 'broken') return { kind: 'broken', which, checked }
  }
  const [before, after] = [older as Export, newer as Export]
  return {
    kind: 'compared',
    sites: before.chains.map((chain): SiteCompared => {
      const other = after.chains.find(({ site }) => site === chain.site)
      return other ? compareChains(chain, other) : { site: chain.site, kind: 'apart' }
    })
  }
}

function compareChains(older: Chain, newer: Chain): SiteCompared {
  const { site } = older
  const [links, others] = [linksOf(older), linksOf(newer)]
  const shared = [...links.keys()].filter((place) => others.has(place)).sort((a, b) => a - b)
  const last = shared.at(-1)
  if (last === undefined) return { site, kind: 'apart' }
  const [end, newEnd] = [endOf(older), endOf(newer)]
  const firstOther = shared.find((place) => links.get(place) !== others.get(place))
  if (firstOther !== undefined) return { site, kind: 'changed', place: firstOther }
  if (last < end) return { site, kind: 'ends-earlier', place: newEnd, before: end }
  const otherKey = older.head.key === newer.head.key ? null : newer.head.key
  return { site, kind: 'continued', place: end, added: newEnd - end, otherKey }
}

/** Places have no gap: a checked chain ends with its last entry. */
function endOf({ after, entries }: Chain): number {
  return entries.at(-1)?.place ?? after.place
}

/** By place; that of the place before the first entry is among them. */
function linksOf({ after, entries }: Chain): ReadonlyMap<number, string> {
  return new Map([[after.place, after.link], ...entries.map(({ place, link }) => [place, link] as const)])
}
