/**
 * What is known of a partly built order: how far each chain has come, who was served last, and how the completions of
 * the last tasks bind each other. With maximum waits a completion is not frozen: a later task may push it further. So a
 * label keeps differences: `bounds[a * size + b]` is the least that completion a lies after completion b, where index 0
 * is now. A closed matrix of such differences says all there is to say about the past (simple temporal problem;
 * Dechter, Meiri, Pearl 1991, from memory). Only completions with a maximum still open can be pushed, so only their
 * columns and that of now are kept.
 */
import { heldBy, type Segment } from './segment.ts'

export interface Label {
  readonly positions: Uint16Array
  /** Chain served last, or where the hands begin. */
  readonly last: number
  readonly bounds: Float64Array
  readonly switches: number
  readonly from: Label | null
  /** No completion of the whole is earlier than this. */
  readonly finish: number
  /** Nor has it fewer switches. */
  readonly leastSwitches: number
  /** One number for positions and last. */
  readonly state: number
}

const NONE = Number.NEGATIVE_INFINITY

/** Extends labels of one segment. `relaxMs` is added to every maximum. */
export interface Extender {
  readonly start: Label
  /** The label after serving a chain's next task; null when tools or maxima do not allow it. */
  extend(label: Label, chain: number): Label | null
  isComplete(label: Label): boolean
  /** With nothing to do before the machine's task, whether that can still be in time. */
  startsInTime(): boolean
}

export function extender(segment: Segment, relaxMs: number): Extender {
  const { chains, changeMs, joins } = segment
  const count = chains.length
  const size = count + 1
  const tables = chains.map((chain) => tableOf(chain, changeMs))
  const tools = Object.keys(segment.tools).filter((tool) =>
    chains.some(({ tasks }) => tasks.some(({ takes }) => takes.includes(tool)))
  )
  const held = tools.map((tool) =>
    chains.map((chain) =>
      Array.from({ length: chain.tasks.length + 1 }, (_, position) => heldBy(chain, position, tool))
    )
  )
  const radix = Math.max(...chains.map(({ tasks }) => tasks.length), 0) + 1

  function isComplete({ positions }: Label): boolean {
    return positions.every((position, chain) => position >= (chains[chain]?.tasks.length ?? 0))
  }

  function toolsFree(positions: Uint16Array, chain: number): boolean {
    const takes = chains[chain]?.tasks[positions[chain] ?? 0]?.takes ?? []
    for (const tool of takes) {
      const index = tools.indexOf(tool)
      let inUse = 0
      for (let other = 0; other < count; other += 1) inUse += held[index]?.[other]?.[positions[other] ?? 0] ?? 0
      if (inUse >= (segment.tools[tool] ?? 0)) return false
    }
    return true
  }

  function labelOf(
    positions: Uint16Array,
    last: number,
    bounds: Float64Array,
    switches: number,
    from: Label | null
  ): Label {
    const handsNode = nodeOfHands(positions, last)
    let load = bounds[handsNode * size] ?? 0
    let others = 0
    let finish = 0
    let leastTail = Number.POSITIVE_INFINITY
    let state = last + 2
    for (let chain = 0; chain < count; chain += 1) {
      const table = tables[chain] as Table
      const position = positions[chain] ?? 0
      state = state * radix + position
      const free = position === 0 ? table.readyMs : (bounds[(chain + 1) * size] ?? 0) + (table.min[position - 1] ?? 0)
      finish = Math.max(finish, free + (table.chainFrom[position] ?? 0))
      if (position >= table.length) continue
      load += table.handsFrom[position] ?? 0
      load += table.leavingFrom[chain === last && position > 0 ? position - 1 : position] ?? 0
      leastTail = Math.min(leastTail, table.min[table.length - 1] ?? 0)
      if (chain !== last) others += 1
    }
    // The hands go to every other unfinished chain at least once, and to the machine's task in the end.
    const isThere = last === AT_MACHINE && others === 0
    const moves = others + (joins && !isThere ? 1 : 0)
    const paid = last === NOWHERE ? Math.max(0, moves - 1) : moves
    const tail = leastTail === Number.POSITIVE_INFINITY || joins ? 0 : leastTail
    finish = Math.max(finish, load + paid * changeMs + tail)
    return { positions, last, bounds, switches, from, finish, leastSwitches: switches + paid, state }
  }

  function extend(label: Label, chain: number): Label | null {
    const table = tables[chain] as Table
    const position = label.positions[chain] ?? 0
    if (position >= table.length || (tools.length > 0 && !toolsFree(label.positions, chain))) return null
    const { bounds, last } = label
    const handsMs = table.hands[position] ?? 0
    const node = chain + 1
    const previous = position === 0 ? 0 : node
    const handsNode = nodeOfHands(label.positions, last)
    const isMove = last !== chain && last !== NOWHERE
    const least = handsMs + (position === 0 ? table.readyMs : (table.min[position - 1] ?? 0))
    const follows = handsMs + (isMove ? changeMs : 0)
    const latest = position === 0 ? table.latestMs : (table.max[position - 1] ?? Number.POSITIVE_INFINITY)
    const back = -(handsMs + latest + relaxMs)

    // How far the new completion lies after each other one; then whether its own maximum contradicts that.
    const ahead = new Float64Array(size)
    for (let b = 0; b < size; b += 1) {
      ahead[b] = Math.max(
        least + (bounds[previous * size + b] ?? NONE),
        follows + (bounds[handsNode * size + b] ?? NONE)
      )
    }
    if ((ahead[previous] ?? NONE) + back > 0) return null
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
      fresh[node * size + other] = ahead[other] ?? NONE
      fresh[other * size + node] = back > NONE ? (bounds[other * size + previous] ?? NONE) + back : NONE
    }
    fresh[node * size + node] = 0
    const positions = label.positions.slice()
    positions[chain] = position + 1
    forget(fresh, positions, chain)
    const next = labelOf(positions, chain, fresh, label.switches + (isMove ? 1 : 0), label)
    return joins && isComplete(next) && !mayJoin(next) ? null : next
  }

  /** Drops what can make no difference any more, so that more labels are seen to be alike. */
  function forget(bounds: Float64Array, positions: Uint16Array, last: number): void {
    for (let chain = 0; chain < count; chain += 1) {
      const node = chain + 1
      const table = tables[chain] as Table
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

  /** The machine's task must start within the last maximum of every chain. */
  function mayJoin({ positions, last, bounds }: Label): boolean {
    const handsNode = nodeOfHands(positions, last)
    const change = last === AT_MACHINE ? 0 : changeMs
    for (let chain = 0; chain < count; chain += 1) {
      const table = tables[chain] as Table
      const position = positions[chain] ?? 0
      const most = position === 0 ? table.latestMs : (table.max[position - 1] ?? Number.POSITIVE_INFINITY)
      if (most === Number.POSITIVE_INFINITY) continue
      const column = position === 0 ? 0 : chain + 1
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

  const bounds = new Float64Array(size * size).fill(NONE)
  for (let node = 0; node < size; node += 1) bounds[node * size + node] = 0
  const start = labelOf(new Uint16Array(count), segment.at ?? NOWHERE, bounds, 0, null)
  return { start, extend, isComplete, startsInTime: () => !joins || mayJoin(start) }
}

/** Hands that are nowhere in particular: the first lane costs them no change. */
const NOWHERE = -2
const AT_MACHINE = -1

/** The completion that the hands come from: now, until they have done something. */
function nodeOfHands(positions: Uint16Array, last: number): number {
  return last >= 0 && (positions[last] ?? 0) > 0 ? last + 1 : 0
}

/** A chain in numbers. Infinite where there is no maximum. */
interface Table {
  readonly length: number
  readonly readyMs: number
  readonly latestMs: number
  readonly hands: Float64Array
  readonly min: Float64Array
  readonly max: Float64Array
  /** From each position on: hands-on time. */
  readonly handsFrom: Float64Array
  /** From each position on: the whole chain with its minimum waits, the trailing one included. */
  readonly chainFrom: Float64Array
  /** During a wait within a chain the hands idle, or leave and come back: it costs them the smaller of the two. */
  readonly leavingFrom: Float64Array
}

function tableOf({ tasks, readyMs, latestMs }: Segment['chains'][number], changeMs: number): Table {
  const infinite = Number.POSITIVE_INFINITY
  return {
    length: tasks.length,
    readyMs,
    latestMs: latestMs ?? infinite,
    hands: Float64Array.from(tasks, ({ handsMs }) => handsMs),
    min: Float64Array.from(tasks, ({ minMs }) => minMs),
    max: Float64Array.from(tasks, ({ maxMs }) => maxMs ?? infinite),
    handsFrom: sumsFrom(tasks.map(({ handsMs }) => handsMs)),
    chainFrom: sumsFrom(tasks.map(({ handsMs, minMs }) => handsMs + minMs)),
    leavingFrom: sumsFrom(tasks.map(({ minMs }, index) => (index < tasks.length - 1 ? Math.min(minMs, changeMs) : 0)))
  }
}

/** Sums from each place to the end. */
function sumsFrom(values: readonly number[]): Float64Array {
  const sums = new Float64Array(values.length + 1)
  for (let index = values.length - 1; index >= 0; index -= 1)
    sums[index] = (sums[index + 1] ?? 0) + (values[index] ?? 0)
  return sums
}
