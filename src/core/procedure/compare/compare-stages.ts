/** Stages have no names of their own that stay: one is the same as before when it has most of the same steps. */
import type { Stage, Text } from '../procedure.ts'
import { inOrder } from './in-order.ts'
import { same } from './same.ts'

export type StageDifference =
  | { readonly kind: 'added' | 'removed'; readonly title: Text }
  | {
      readonly kind: 'changed'
      readonly title: Text
      /** What it was called; null where that is the same. */
      readonly before: Text | null
      /** Behind which stage it stands now; null for the first. Absent where it was not moved. */
      readonly movedBehind?: Text | null
    }

/** The place that each stage of the newer version had, where it had one. */
export type SameStages = ReadonlyMap<number, number>

export function sameStages(before: readonly Stage[], after: readonly Stage[]): SameStages {
  const alike = after.flatMap((stage, is) =>
    before.flatMap((old, was) => {
      const ids = new Set(old.steps.map(({ id }) => id))
      const shared = stage.steps.filter(({ id }) => ids.has(id)).length
      const isNamed = same(old.title, stage.title)
      return shared > 0 || isNamed ? [{ is, was, shared, isNamed }] : []
    })
  )
  const pairs = new Map<number, number>()
  const taken = new Set<number>()
  for (const { is, was } of alike.toSorted((a, b) => b.shared - a.shared || Number(b.isNamed) - Number(a.isNamed))) {
    if (pairs.has(is) || taken.has(was)) continue
    pairs.set(is, was)
    taken.add(was)
  }
  return pairs
}

export function compareStages(
  before: readonly Stage[],
  after: readonly Stage[],
  pairs: SameStages
): readonly StageDifference[] {
  const kept = new Set(pairs.values())
  const places = after.flatMap((_, is) => pairs.get(is) ?? [])
  const inPlace = inOrder(places.toSorted((a, b) => a - b).map(String), places.map(String))
  return [
    ...after.flatMap(({ title }, is): readonly StageDifference[] => {
      const was = pairs.get(is)
      if (was === undefined) return [{ kind: 'added', title }]
      const old = before[was]?.title ?? title
      const called = same(old, title) ? null : old
      if (!inPlace.has(String(was)))
        return [{ kind: 'changed', title, before: called, movedBehind: after[is - 1]?.title ?? null }]
      return called === null ? [] : [{ kind: 'changed', title, before: called }]
    }),
    ...before.flatMap(({ title }, was): readonly StageDifference[] =>
      kept.has(was) ? [] : [{ kind: 'removed', title }]
    )
  ]
}

/** The older stages in the order of the newer ones; one that is gone stays behind the one it followed. */
export function inNewOrder(before: readonly Stage[], pairs: SameStages): readonly Stage[] {
  const now = new Map([...pairs].map(([is, was]) => [was, is]))
  let last = -1
  return before
    .map((stage, was) => {
      last = now.get(was) ?? last
      return { stage, at: last }
    })
    .toSorted((a, b) => a.at - b.at)
    .map(({ stage }) => stage)
}
