/**
 * What is known of a partly built order: how far each chain has come, who was served last, and how the completions of
 * the last tasks bind each other. With maximum waits a completion is not frozen: a later task may push it further. So a
 * label keeps differences: `bounds[a * size + b]` is the least that completion a lies after completion b, where index 0
 * is now. A closed matrix of such differences says all there is to say about the past (simple temporal problem;
 * Dechter, Meiri, Pearl 1991, from memory).
 */
import { toolsFree, type Segment } from './segment.ts'

export interface Label {
  readonly positions: Uint16Array
  readonly last: number
  readonly bounds: Float64Array
  readonly switches: number
  readonly from: Label | null
  /** No completion of the whole is earlier than this. */
  readonly finish: number
  /** Nor has it fewer switches. */
  readonly leastSwitches: number
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
  const size = chains.length + 1
  const lengths = chains.map(({ tasks }) => tasks.length)
  const hasTools = chains.some(({ tasks }) => tasks.some(({ takes }) => takes.length > 0))
  // From each position on: hands-on time, and the whole chain with its minimum waits, trailing wait included.
  const handsFrom = chains.map(({ tasks }) => suffix(tasks.map(({ handsMs }) => handsMs)))
  const chainFrom = chains.map(({ tasks }) => suffix(tasks.map(({ handsMs, minMs }) => handsMs + minMs)))
  // During a wait within a chain the hands idle, or leave and come back later: it costs them the smaller of the two.
  const leavingFrom = chains.map(({ tasks }) =>
    suffix(tasks.map(({ minMs }, index) => (index < tasks.length - 1 ? Math.min(minMs, changeMs) : 0)))
  )

  function measured(label: Omit<Label, 'finish' | 'leastSwitches'>): Label {
    const { positions, bounds, last } = label
    let load = bounds[nodeOfHands(label) * size] ?? 0
    let others = 0
    let finish = 0
    for (let chain = 0; chain < chains.length; chain += 1) {
      const position = positions[chain] ?? 0
      const tail = chainFrom[chain]?.[position] ?? 0
      const { tasks, readyMs } = chains[chain] as Segment['chains'][number]
      const done = tasks[position - 1]
      const free = position === 0 ? readyMs : (bounds[(chain + 1) * size] ?? 0) + (done?.minMs ?? 0)
      finish = Math.max(finish, free + tail)
      if (position >= tasks.length) continue
      load += handsFrom[chain]?.[position] ?? 0
      load += leavingFrom[chain]?.[chain === last ? Math.max(0, position - 1) : position] ?? 0
      if (chain !== last) others += 1
    }
    // The hands go to every other unfinished chain at least once, and to the machine's task in the end.
    const isThere = last === AT_MACHINE && others === 0
    const moves = others + (joins && !isThere ? 1 : 0)
    const paid = last === NOWHERE ? Math.max(0, moves - 1) : moves
    return { ...label, finish: Math.max(finish, load + paid * changeMs), leastSwitches: label.switches + paid }
  }

  function extend(label: Label, chain: number): Label | null {
    const position = label.positions[chain] ?? 0
    const own = chains[chain]
    const task = own?.tasks[position]
    if (!own || !task || (hasTools && !toolsFree(segment, label.positions, chain))) return null
    const { handsMs } = task
    const before = own.tasks[position - 1]
    const node = chain + 1
    const previous = position === 0 ? 0 : node
    // after(x): the new completion lies at least so much after x. notAfter: x lies at least so much after it (negative).
    const least = handsMs + (position === 0 ? own.readyMs : (before?.minMs ?? 0))
    const latest = position === 0 ? own.latestMs : (before?.maxMs ?? null)
    const most = latest === null ? NONE : -(handsMs + latest + relaxMs)
    const lastNode = nodeOfHands(label)
    const isMove = label.last !== chain
    const move = isMove && label.last !== NOWHERE ? changeMs : 0
    const fresh = closedWith(label.bounds, size, {
      replaces: node,
      after: [
        [previous, least],
        [lastNode, handsMs + move]
      ],
      before: previous,
      most
    })
    if (!fresh) return null
    const positions = label.positions.slice()
    positions[chain] = position + 1
    const switches = label.switches + (isMove && label.last !== NOWHERE ? 1 : 0)
    const next = measured({ positions, last: chain, bounds: fresh, switches, from: label })
    return joins && isAtEnd(positions) && !mayJoin(next) ? null : next
  }

  function isAtEnd(positions: Uint16Array): boolean {
    return lengths.every((length, chain) => (positions[chain] ?? 0) >= length)
  }

  /** The machine's task must start within the last maximum of every chain. */
  function mayJoin(label: Label): boolean {
    const { positions, bounds } = label
    const after: (readonly [number, number])[] = [[nodeOfHands(label), label.last === AT_MACHINE ? 0 : changeMs]]
    chains.forEach(({ tasks, readyMs }, chain) => {
      const done = tasks[(positions[chain] ?? 0) - 1]
      after.push(done ? [chain + 1, done.minMs] : [0, readyMs])
    })
    const start = (node: number) => Math.max(...after.map(([from, ms]) => ms + (bounds[from * size + node] ?? NONE)))
    return chains.every(({ tasks, latestMs }, chain) => {
      const done = tasks[(positions[chain] ?? 0) - 1]
      const most = done ? done.maxMs : latestMs
      return most === null || start(done ? chain + 1 : 0) <= most + relaxMs
    })
  }

  const bounds = new Float64Array(size * size).fill(NONE)
  for (let node = 0; node < size; node += 1) bounds[node * size + node] = 0
  const start = measured({
    positions: new Uint16Array(chains.length),
    last: segment.at ?? NOWHERE,
    bounds,
    switches: 0,
    from: null
  })
  return {
    start,
    extend,
    isComplete: ({ positions }) => isAtEnd(positions),
    startsInTime: () => !joins || mayJoin(start)
  }
}

/** The completion that the hands come from: now, until they have done something. */
function nodeOfHands({ positions, last }: Pick<Label, 'positions' | 'last'>): number {
  return last >= 0 && (positions[last] ?? 0) > 0 ? last + 1 : 0
}

/** Hands that are nowhere in particular: the first lane costs them no change. */
const NOWHERE = -2
const AT_MACHINE = -1

interface NewNode {
  /** The node whose place it takes. */
  readonly replaces: number
  readonly after: readonly (readonly [node: number, ms: number])[]
  readonly before: number
  readonly most: number
}

/** The matrix with a new node in the place of an old one; null when the bounds contradict each other. */
function closedWith(
  bounds: Float64Array,
  size: number,
  { replaces, after, before, most }: NewNode
): Float64Array | null {
  const ahead = new Float64Array(size).fill(NONE)
  for (const [node, ms] of after) {
    for (let b = 0; b < size; b += 1) {
      const length = ms + (bounds[node * size + b] ?? NONE)
      if (length > (ahead[b] ?? NONE)) ahead[b] = length
    }
  }
  if (most > NONE && (ahead[before] ?? NONE) + most > 0) return null
  const fresh = bounds.slice()
  if (most > NONE) {
    for (let a = 0; a < size; a += 1) {
      const back = (bounds[a * size + before] ?? NONE) + most
      if (back === NONE) continue
      for (let b = 0; b < size; b += 1) {
        const through = back + (ahead[b] ?? NONE)
        if (through > (fresh[a * size + b] ?? NONE)) fresh[a * size + b] = through
      }
    }
  }
  for (let other = 0; other < size; other += 1) {
    if (other === replaces) continue
    fresh[replaces * size + other] = ahead[other] ?? NONE
    fresh[other * size + replaces] = most > NONE ? (bounds[other * size + before] ?? NONE) + most : NONE
  }
  fresh[replaces * size + replaces] = 0
  return fresh
}

/** Sums from each place to the end. */
function suffix(values: readonly number[]): Float64Array {
  const sums = new Float64Array(values.length + 1)
  for (let index = values.length - 1; index >= 0; index -= 1)
    sums[index] = (sums[index + 1] ?? 0) + (values[index] ?? 0)
  return sums
}
