/**
 * The order that ends a stretch first and, among those, changes lanes least. Best-first over labels with a bound that
 * never promises too little (A*; Hart, Nilsson, Raphael 1968, from memory), after a beam has found something good to
 * beat. Exact when it closes within its budget.
 */
import { extender, type Label } from './label.ts'
import { labelQueue } from './label-queue.ts'
import type { Segment, Sequence } from './segment.ts'

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
  /** Nothing was found, and nothing proved, within the budget. */
  | { readonly kind: 'unknown' }

export interface SearchOptions {
  /** How many labels may be looked at. */
  readonly budget: number
  /** Added to every maximum, ms. */
  readonly relaxMs: number
  /** The first task must be on this chain. */
  readonly firstOn: number | null
}

/** How many labels the first sweep keeps at each length; more of them where much may be spent. */
const beamWidth = (budget: number) => Math.max(6, Math.min(24, Math.floor(budget / 1000)))

export function search(segment: Segment, { budget, relaxMs, firstOn }: SearchOptions): Search {
  const { start, extend, isComplete, startsInTime } = extender(segment, relaxMs)
  const count = segment.chains.length
  const next = (label: Label): Label[] => {
    const labels: Label[] = []
    for (let chain = 0; chain < count; chain += 1) {
      if (label === start && firstOn !== null && chain !== firstOn) continue
      const extended = extend(label, chain)
      if (extended) labels.push(extended)
    }
    return labels
  }
  if (isComplete(start)) return startsInTime() ? found(start, start.finish, true) : { kind: 'impossible' }

  let best = beam(start, next, isComplete, beamWidth(budget))
  const queue = labelQueue()
  const seen = new Map<number, Label[]>()
  queue.push(start)
  for (let looked = 0; looked < budget; looked += 1) {
    const label = queue.pop()
    // Everything left ends later, or as early with more changes.
    if (label === undefined) return best ? found(best, best.finish, true) : { kind: 'impossible' }
    if (best !== null && compare(label, best) >= 0) return found(best, best.finish, true)
    if (isComplete(label)) return found(label, label.finish, true)
    if (isBeaten(seen.get(label.state), label)) continue
    for (const extended of next(label)) {
      if (best !== null && compare(extended, best) >= 0) continue
      if (keep(seen, extended)) queue.push(extended)
      if (isComplete(extended)) best = extended
    }
  }
  const lowest = queue.pop()
  if (best === null) return { kind: 'unknown' }
  return found(best, Math.min(best.finish, lowest?.finish ?? best.finish), false)
}

function found(label: Label, lowerBound: number, isProved: boolean): Search {
  return { kind: 'found', found: foundIn(label, lowerBound, isProved) }
}

function foundIn(label: Label, lowerBound: number, isProved: boolean): Found {
  const sequence: number[] = []
  for (let at: Label = label; at.from !== null; at = at.from) sequence.push(at.last)
  return { sequence: sequence.reverse(), finish: label.finish, switches: label.leastSwitches, lowerBound, isProved }
}

/** Earlier first, then fewer changes of lane. */
function compare(a: Label, b: Label): number {
  return a.finish - b.finish || a.leastSwitches - b.leastSwitches
}

function beam(
  start: Label,
  next: (label: Label) => Label[],
  isComplete: (label: Label) => boolean,
  width: number
): Label | null {
  let front: Label[] = [start]
  while (front.length > 0) {
    const whole = front.filter(isComplete)
    if (whole.length > 0) return whole.sort(compare)[0] ?? null
    const kept = new Map<number, Label[]>()
    const fresh = front.flatMap(next).filter((label) => keep(kept, label))
    front = fresh
      .filter((label) => !isBeaten(kept.get(label.state), label))
      .sort(compare)
      .slice(0, width)
  }
  return null
}

/** Adds a label unless one of the same state is at least as good in everything; throws out those it beats. */
function keep(seen: Map<number, Label[]>, label: Label): boolean {
  const key = label.state
  const rivals = seen.get(key)
  if (rivals === undefined) {
    seen.set(key, [label])
    return true
  }
  if (rivals.some((rival) => dominates(rival, label))) return false
  seen.set(key, [...rivals.filter((rival) => !dominates(label, rival)), label])
  return true
}

/** It was thrown out after it had been queued. */
function isBeaten(rivals: readonly Label[] | undefined, label: Label): boolean {
  return rivals !== undefined && !rivals.includes(label)
}

function dominates(a: Label, b: Label): boolean {
  if (a.switches > b.switches || a.finish > b.finish) return false
  for (let index = 0; index < a.bounds.length; index += 1) {
    if ((a.bounds[index] ?? 0) > (b.bounds[index] ?? 0)) return false
  }
  return true
}
