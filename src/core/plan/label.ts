/**
 * What is known of a partly built order: how far each chain has come, who was served last, and how the completions of
 * the last tasks bind each other. With maximum waits a completion is not frozen: a later task may push it further. So a
 * label keeps differences: `bounds[a * size + b]` is the least that completion a lies after completion b, where index 0
 * is now. A closed matrix of such differences says all there is to say about the past (simple temporal problem;
 * Dechter, Meiri, Pearl 1991, from memory). Only completions with a maximum still open can be pushed, so only their
 * columns and that of now are kept.
 */
import { chainTable, type ChainTable } from './chain-table.ts'
import { AT_MACHINE, finishBound, NOWHERE } from './finish-bound.ts'
import type { Segment } from './segment.ts'
import { toolOrder } from './tool-order.ts'
import { twinsIn } from './twins.ts'

export interface Label {
  readonly positions: readonly number[]
  /** Chain served last, or where the hands begin. */
  readonly last: number
  readonly bounds: readonly number[]
  readonly switches: number
  readonly from: Label | null
  /** No completion of the whole is earlier than this. */
  readonly finish: number
  /** Nor has one that is over then fewer switches. */
  readonly leastSwitches: number
  /** How many tasks are served. */
  readonly done: number
  /** One number for positions and last. */
  readonly state: number
  /** Another label of the same state is at least as good in everything. */
  isBeaten: boolean
}

const NONE = Number.NEGATIVE_INFINITY

/** Extends labels of one segment. */
export interface Extender {
  /** Null when no order lets every task have its tools, or the first limits are past saving. */
  readonly start: Label | null
  /** The label after serving a chain's next task; null when tools or maxima do not allow it or what must follow. */
  extend(label: Label, chain: number): Label | null
  isComplete(label: Label): boolean
}

/** `relaxMs` is added to every maximum; `firstOn`: the chain that is served first, null where that is open. */
export type ExtenderFor = (relaxMs: number, firstOn: number | null) => Extender

export function extenderOf(segment: Segment): ExtenderFor {
  const { chains, changeMs, joins } = segment
  const count = chains.length
  const size = count + 1
  const tables = chains.map((chain) => chainTable(chain, changeMs))
  const total = tables.reduce((sum, { length }) => sum + length, 0)
  const tools = toolOrder(segment)
  const best = finishBound(segment, tables)
  const radix = Math.max(...tables.map(({ length }) => length), 0) + 1
  const twinsFor = twinsIn(segment)
  const free = tables.map(() => 0)
  const ahead = Array.from({ length: size }, () => 0)

  const isComplete = ({ done }: Label) => done === total

  function labelOf(
    positions: readonly number[],
    last: number,
    bounds: readonly number[],
    switches: number,
    from: Label | null
  ): Label {
    let state = last + 2
    for (let chain = 0; chain < count; chain += 1) {
      const position = positions[chain] ?? 0
      const table = tables[chain] as ChainTable
      state = state * radix + position
      free[chain] = position === 0 ? table.readyMs : (bounds[(chain + 1) * size] ?? 0) + (table.min[position - 1] ?? 0)
    }
    const { finish, switches: more } = best.of(positions, last, free, bounds[nodeOfHands(positions, last) * size] ?? 0)
    const done = from === null ? 0 : from.done + 1
    const leastSwitches = switches + more
    return { positions, last, bounds, switches, from, finish, leastSwitches, done, state, isBeaten: false }
  }

  /** The most that a chain may wait for its next task, and the completion that this counts from. */
  const mostWait = (positions: readonly number[], chain: number): number => {
    const position = positions[chain] ?? 0
    const table = tables[chain] as ChainTable
    return position === 0 ? table.latestMs : (table.max[position - 1] ?? Number.POSITIVE_INFINITY)
  }

  /** Drops what can make no difference any more, so that more labels are seen to be alike. */
  function forget(bounds: number[], positions: readonly number[], last: number): void {
    for (let chain = 0; chain < count; chain += 1) {
      const node = chain + 1
      const table = tables[chain] as ChainTable
      const position = positions[chain] ?? 0
      if (position === 0) continue
      const isFinished = position >= table.length
      if ((table.max[position - 1] ?? Number.POSITIVE_INFINITY) < Number.POSITIVE_INFINITY && (!isFinished || joins))
        continue
      for (let a = 0; a < size; a += 1) if (a !== node) bounds[a * size + node] = NONE
      if (chain === last) continue
      // Its wait is over before the hands can be there: how long before is all the same.
      const over = (isFinished && !joins ? 0 : changeMs) - (table.min[position - 1] ?? 0)
      for (let b = 0; b < size; b += 1) {
        const least = (bounds[(last + 1) * size + b] ?? NONE) + over
        if (b !== node && least > (bounds[node * size + b] ?? NONE)) bounds[node * size + b] = least
      }
    }
  }

  /** A limit that the hands cannot come back in time for, go where they may. */
  function isHopeless(bounds: readonly number[], positions: readonly number[], last: number, relaxMs: number): boolean {
    const handsRow = nodeOfHands(positions, last) * size
    for (let chain = 0; chain < count; chain += 1) {
      if (chain === last) continue
      const position = positions[chain] ?? 0
      const isFinished = position >= (tables[chain]?.length ?? 0)
      if (isFinished && !joins) continue
      const most = mostWait(positions, chain)
      if (most === Number.POSITIVE_INFINITY || last === NOWHERE) continue
      const column = position === 0 ? 0 : chain + 1
      if ((bounds[handsRow + column] ?? NONE) + changeMs > most + relaxMs) return true
    }
    return false
  }

  /** The machine's task must start within the last maximum of every chain. */
  function mayJoin(bounds: readonly number[], positions: readonly number[], last: number, relaxMs: number): boolean {
    const handsNode = nodeOfHands(positions, last)
    const change = last === AT_MACHINE ? 0 : changeMs
    for (let chain = 0; chain < count; chain += 1) {
      const most = mostWait(positions, chain)
      if (most === Number.POSITIVE_INFINITY) continue
      const column = positions[chain] === 0 ? 0 : chain + 1
      let start = change + (bounds[handsNode * size + column] ?? NONE)
      for (let other = 0; other < count; other += 1) {
        const done = positions[other] ?? 0
        const from = done === 0 ? 0 : other + 1
        const ms = done === 0 ? (tables[other]?.readyMs ?? 0) : (tables[other]?.min[done - 1] ?? 0)
        start = Math.max(start, ms + (bounds[from * size + column] ?? NONE))
      }
      if (start > most + relaxMs) return false
    }
    return true
  }

  function extend(label: Label, chain: number, relaxMs: number, twins: readonly number[]): Label | null {
    const table = tables[chain] as ChainTable
    const position = label.positions[chain] ?? 0
    if (position >= table.length || !tools.isFree(label.positions, chain)) return null
    const twin = twins[chain] ?? -1
    if (position === 0 && twin >= 0 && label.positions[twin] === 0) return null
    const { bounds, last } = label
    const handsMs = table.hands[position] ?? 0
    const node = chain + 1
    const previous = position === 0 ? 0 : node
    const handsNode = nodeOfHands(label.positions, last)
    const isMove = last !== chain && last !== NOWHERE
    const least = handsMs + (position === 0 ? table.readyMs : (table.min[position - 1] ?? 0))
    const follows = handsMs + (isMove ? changeMs : 0)
    const back = -(handsMs + mostWait(label.positions, chain) + relaxMs)

    // How far the new completion lies after each other one; then whether its own maximum contradicts that.
    for (let b = 0; b < size; b += 1) {
      ahead[b] = Math.max(
        least + (bounds[previous * size + b] ?? NONE),
        follows + (bounds[handsNode * size + b] ?? NONE)
      )
    }
    if ((ahead[previous] ?? NONE) + back > 0) return null
    const positions = label.positions.slice()
    positions[chain] = position + 1
    if (tools.concerns(chain, position) && !tools.canFinish(positions)) return null
    const fresh = bounds.slice()
    if (back > NONE) {
      for (let a = 0; a < size; a += 1) {
        const pushed = (bounds[a * size + previous] ?? NONE) + back
        if (pushed === NONE) continue
        for (let b = 0; b < size; b += 1) {
          const through = pushed + (ahead[b] ?? NONE)
          if (through > (fresh[a * size + b] ?? NONE)) fresh[a * size + b] = through
        }
      }
    }
    for (let other = 0; other < size; other += 1) {
      fresh[other * size + node] = back > NONE ? (bounds[other * size + previous] ?? NONE) + back : NONE
      fresh[node * size + other] = ahead[other] ?? NONE
    }
    fresh[node * size + node] = 0
    forget(fresh, positions, chain)
    if (isHopeless(fresh, positions, chain, relaxMs)) return null
    const next = labelOf(positions, chain, fresh, label.switches + (isMove ? 1 : 0), label)
    return joins && isComplete(next) && !mayJoin(fresh, positions, chain, relaxMs) ? null : next
  }

  const origin = Array.from({ length: size * size }, (_, index) => (index % (size + 1) === 0 ? 0 : NONE))
  const start = labelOf(
    tables.map(() => 0),
    segment.at ?? NOWHERE,
    origin,
    0,
    null
  )
  const canStart = tools.canFinish(start.positions)
  return (relaxMs, firstOn) => {
    const twins = twinsFor(firstOn)
    // With nothing to do before the machine's task, that must be in time.
    const isInTime = !joins || total > 0 || mayJoin(start.bounds, start.positions, start.last, relaxMs)
    return {
      start: canStart && isInTime ? start : null,
      extend: (label, chain) =>
        label === start && firstOn !== null && chain !== firstOn ? null : extend(label, chain, relaxMs, twins),
      isComplete
    }
  }
}

/** The completion that the hands come from: now, until they have done something. */
function nodeOfHands(positions: readonly number[], last: number): number {
  return last >= 0 && (positions[last] ?? 0) > 0 ? last + 1 : 0
}
