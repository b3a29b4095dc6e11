/** The order that misses its maxima by as little as can be found, where none was found that keeps them all. */
import type { Found, Searcher } from './search.ts'

export interface Late {
  readonly found: Found
  /** No maximum is missed by more, ms. */
  readonly relaxMs: number
  /** Every order misses some maximum by so much, ms. Equal to `relaxMs` when no order could do better. */
  readonly leastRelaxMs: number
}

export interface LateOptions {
  /** For one search; all the trials together may cost about as much. */
  readonly budget: number
  /** That no order keeps all maxima is proved. */
  readonly isImpossible: boolean
}

/** Lateness is measured to the second. */
const STEP_MS = 1000
const TRIALS = 20

/** Null: the tools stand in the way of any order. */
export function leastLate(searcher: Searcher, { budget, isImpossible }: LateOptions): Late | null {
  const trial = (relaxMs: number) => searcher.find({ budget: Math.ceil(budget / TRIALS), relaxMs, firstOn: null })
  const any = trial(Number.POSITIVE_INFINITY)
  if (any.kind !== 'found') return null
  let best = any.found
  let enough = stepsLate(searcher, best)
  let impossible = isImpossible ? 0 : -1
  let inVain = 0
  while (enough - Math.max(impossible, inVain) > 1) {
    const middle = Math.floor((enough + Math.max(impossible, inVain)) / 2)
    const result = trial(middle * STEP_MS)
    if (result.kind === 'found') {
      best = result.found
      enough = Math.min(middle, stepsLate(searcher, best))
    } else if (result.kind === 'impossible') impossible = middle
    else inVain = middle
  }
  const relaxMs = enough * STEP_MS
  const full = searcher.find({ budget, relaxMs, firstOn: null })
  return {
    found: full.kind === 'found' ? full.found : best,
    relaxMs,
    leastRelaxMs: impossible < 0 ? 0 : (impossible + 1) * STEP_MS
  }
}

/** The fewest steps of lateness that an order can be carried out with. */
function stepsLate(searcher: Searcher, { sequence }: Found): number {
  const isEnough = (steps: number) => searcher.keeps(sequence, steps * STEP_MS)
  if (isEnough(0)) return 0
  let [tooFew, enough] = [0, 1]
  while (!isEnough(enough)) [tooFew, enough] = [enough, enough * 2]
  while (enough - tooFew > 1) {
    const middle = Math.floor((enough + tooFew) / 2)
    if (isEnough(middle)) enough = middle
    else tooFew = middle
  }
  return enough
}
