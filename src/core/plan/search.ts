/**
 * The order that ends a stretch first and, among those, changes lanes least. Best-first over labels with a bound that
 * never promises too little (A*; Hart, Nilsson, Raphael 1968, from memory); where that takes long, a sweep finds something
 * good to beat. Exact when it closes within its budget.
 */
import { knownLabels } from './known-labels.ts'
import { extenderOf, type ExtenderFor, type Label } from './label.ts'
import { labelQueue } from './label-queue.ts'
import type { Segment, Sequence } from './segment.ts'
import { compare, sweep } from './sweep.ts'

export interface Found {
  readonly sequence: Sequence
  readonly finish: number
  readonly switches: number
  /** No order ends earlier. Equal to `finish` when it is proved best. */
  readonly lowerBound: number
  /** No order that ends so early changes lanes less. */
  readonly isProved: boolean
}

export type Search =
  | { readonly kind: 'found'; readonly found: Found }
  /** No order keeps all maxima and tools. */
  | { readonly kind: 'impossible' }
  /** Nothing was found, and nothing proved, within the budget. `lowerBound` holds for whatever there may be. */
  | { readonly kind: 'unknown'; readonly lowerBound: number }

export interface SearchOptions {
  /** How many labels may be looked at, for two or three chains; fewer where more chains make them costlier. */
  readonly budget: number
  /** Added to every maximum, ms. */
  readonly relaxMs: number
  /** The first task must be on this chain. */
  readonly firstOn: number | null
}

/** How many labels of each length a sweep keeps: a share of the budget. */
const WIDTH_SHARE = 250
const NARROWEST = 4
const WIDEST = 32

export interface Searcher {
  find(options: SearchOptions): Search
  /** Whether a sequence keeps all maxima relaxed by so much. */
  keeps(sequence: Sequence, relaxMs: number): boolean
}

/** Prepares what all searches of a segment share. */
export function searcher(segment: Segment): Searcher {
  const extenderFor = extenderOf(segment)
  return {
    find: (options) => search(segment.chains.length, extenderFor, options),
    keeps(sequence, relaxMs) {
      const { start, extend } = extenderFor(relaxMs, sequence[0] ?? null)
      return sequence.reduce((label: Label | null, chain) => label && extend(label, chain), start) !== null
    }
  }
}

function search(count: number, extenderFor: ExtenderFor, { budget, relaxMs, firstOn }: SearchOptions): Search {
  const { start, extend, isComplete } = extenderFor(relaxMs, firstOn)
  if (start === null) return { kind: 'impossible' }
  if (isComplete(start)) return found(start, start.finish, true)
  const next = (label: Label): Label[] => {
    const labels: Label[] = []
    for (let chain = 0; chain < count; chain += 1) {
      const extended = extend(label, chain)
      if (extended) labels.push(extended)
    }
    return labels
  }

  const most = Math.ceil(budget * Math.min(1, 40 / (count * count * count)))
  let best: Label | null = null
  const sweepsAt = Math.floor(most / 2)
  const width = Math.max(NARROWEST, Math.min(WIDEST, Math.ceil(most / WIDTH_SHARE)))
  const queue = labelQueue()
  const known = knownLabels()
  queue.push(start)
  for (let looked = 0; looked < most; looked += 1) {
    // It will take long, or come to no end: something good to beat, or to end with, is worth a sweep.
    if (looked === sweepsAt) best = sweep(start, next, isComplete, { width, toBeat: best }) ?? best
    const label = queue.pop()
    // Everything left ends later, or as early with more changes.
    if (label === undefined) return best ? found(best, best.finish, true) : { kind: 'impossible' }
    if (best !== null && compare(label, best) >= 0) return found(best, best.finish, true)
    if (isComplete(label)) return found(label, label.finish, true)
    if (label.isBeaten) continue
    for (const extended of next(label)) {
      if (best !== null && compare(extended, best) >= 0) continue
      if (!known.keeps(extended)) continue
      queue.push(extended)
      if (isComplete(extended)) best = extended
    }
  }
  const lowest = queue.pop()?.finish ?? Number.POSITIVE_INFINITY
  if (best === null) return { kind: 'unknown', lowerBound: lowest }
  return found(best, Math.min(best.finish, lowest), false)
}

function found(label: Label, lowerBound: number, isProved: boolean): Search {
  const sequence: number[] = []
  for (let at: Label = label; at.from !== null; at = at.from) sequence.push(at.last)
  const { finish, leastSwitches } = label
  return {
    kind: 'found',
    found: { sequence: sequence.reverse(), finish, switches: leastSwitches, lowerBound, isProved }
  }
}
