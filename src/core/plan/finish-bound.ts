/**
 * What a partly built order can still come to at best: no completion of it is over before `finish`, and none that is
 * over then changes lanes less often than `leastSwitches`.
 */
import type { ChainTable } from './chain-table.ts'
import type { Segment } from './segment.ts'
import { toolBound } from './tool-bound.ts'

export interface FinishBound {
  /** `free`: when each chain can go on at the earliest; `handsMs`: when the hands can, where they are. */
  of(positions: readonly number[], last: number, free: readonly number[], handsMs: number): BestCase
}

export interface BestCase {
  readonly finish: number
  /** Changes of lane still to come. */
  readonly switches: number
}

/** Hands that are nowhere in particular: the first lane costs them no change. */
export const NOWHERE = -2
export const AT_MACHINE = -1

export function finishBound(segment: Segment, tables: readonly ChainTable[]): FinishBound {
  const { changeMs, joins } = segment
  const count = tables.length
  const tools = toolBound(segment, tables)

  function of(positions: readonly number[], last: number, free: readonly number[], handsMs: number): BestCase {
    let work = handsMs
    let leaving = 0
    let others = 0
    let finish = 0
    let leastTail = Number.POSITIVE_INFINITY
    for (let chain = 0; chain < count; chain += 1) {
      const table = tables[chain] as ChainTable
      const position = positions[chain] ?? 0
      finish = Math.max(finish, (free[chain] ?? 0) + (table.chainFrom[position] ?? 0))
      if (position >= table.length) continue
      work += table.handsFrom[position] ?? 0
      leaving += table.leavingFrom[waitingFrom(chain, last, position)] ?? 0
      leastTail = Math.min(leastTail, table.min[table.length - 1] ?? 0)
      if (chain !== last) others += 1
    }
    // The hands go to every other unfinished chain at least once, and to the machine's task in the end.
    const isThere = last === AT_MACHINE && others === 0
    const moves = others + (joins && !isThere ? 1 : 0)
    const paid = last === NOWHERE ? Math.max(0, moves - 1) : moves
    const tail = leastTail === Number.POSITIVE_INFINITY || joins ? 0 : leastTail
    const busy = work + paid * changeMs + tail
    finish = Math.max(finish, busy + leaving, tailBound(positions, last, free, handsMs), tools.of(positions, free))
    return { finish, switches: paid + departures(positions, last, finish - busy) }
  }

  /**
   * Whichever chains come to the longest wait they have left, the last of them to do so has the rest of its chain before
   * it: one machine with tails (Carlier 1982, from memory), for the chains whose tails are the longest.
   */
  function tailBound(positions: readonly number[], last: number, free: readonly number[], handsMs: number): number {
    let finish = 0
    for (let least = 0; least < count; least += 1) {
      if ((positions[least] ?? 0) >= (tables[least]?.length ?? 0)) continue
      const tail = tables[least]?.tailFromWait[positions[least] ?? 0] ?? 0
      let work = 0
      let moves = last === NOWHERE ? -1 : 0
      let served = 0
      let begins = Number.POSITIVE_INFINITY
      for (let chain = 0; chain < count; chain += 1) {
        const table = tables[chain] as ChainTable
        const position = positions[chain] ?? 0
        if (position >= table.length || (table.tailFromWait[position] ?? 0) < tail) continue
        work += table.workToWait[position] ?? 0
        begins = Math.min(begins, free[chain] ?? 0)
        served += 1
        if (chain !== last) moves += 1
      }
      // Going to the first of them can be done by the time it can go on.
      const start = Math.max(handsMs + moves * changeMs, begins + (served - 1) * changeMs)
      finish = Math.max(finish, start + work + tail)
    }
    return finish
  }

  /** During each wait within a chain the hands stand by, which must fit into `spareMs`, or leave and come back. */
  function departures(positions: readonly number[], last: number, spareMs: number): number {
    let left = 0
    let spare = spareMs
    for (let chain = 0; chain < count; chain += 1) {
      const waits = waitsOf(positions, last, chain)
      left += waits.length
      spare -= waits.length * changeMs
    }
    // Standing by through the shortest waits saves the most departures.
    taken.fill(0)
    for (; left > 0; left -= 1) {
      let shortest = -1
      let wait = Number.POSITIVE_INFINITY
      for (let chain = 0; chain < count; chain += 1) {
        const next = waitsOf(positions, last, chain)[taken[chain] ?? 0] ?? Number.POSITIVE_INFINITY
        if (next < wait) [shortest, wait] = [chain, next]
      }
      if (wait - changeMs > spare) break
      spare -= wait - changeMs
      taken[shortest] = (taken[shortest] ?? 0) + 1
    }
    return left
  }

  const taken = tables.map(() => 0)

  function waitsOf(positions: readonly number[], last: number, chain: number): readonly number[] {
    return tables[chain]?.waitsFrom[waitingFrom(chain, last, positions[chain] ?? 0)] ?? NO_WAITS
  }

  return { of }
}

const NO_WAITS: readonly number[] = []

/** The hands may still stand by for the wait of the lane that they are on; from the others they have gone already. */
function waitingFrom(chain: number, last: number, position: number): number {
  return chain === last && position > 0 ? position - 1 : position
}
