/** From the order of a stretch to times: the earliest that keep every minimum and, relaxed by so much, every maximum. */
import type { Segment, Sequence } from './segment.ts'

export interface Served {
  readonly chain: number
  readonly task: number
  /** ms from the start of the stretch. */
  readonly start: number
  readonly end: number
}

export interface Timetable {
  readonly served: readonly Served[]
  /** When the machine's task may start; for the last stretch, when every wait is over too. */
  readonly finish: number
}

const AT_MACHINE = -1

interface Bound {
  readonly from: number
  readonly to: number
  /** `to` completes at least so much after `from`; node 0 is the start of the stretch, the last one its finish. */
  readonly ms: number
}

export function timetable(segment: Segment, sequence: Sequence, relaxMs: number): Timetable {
  const { chains, changeMs, at, joins } = segment
  const positions = chains.map(() => 0)
  const nodeOf = chains.map(() => 0)
  const bounds: Bound[] = []
  const finishNode = sequence.length + 1
  let lastChain: number | null = at
  sequence.forEach((chain, index) => {
    const node = index + 1
    const own = chains[chain]
    const position = positions[chain] ?? 0
    const task = own?.tasks[position]
    if (!own || !task) return
    const before = own.tasks[position - 1]
    const previous = nodeOf[chain] ?? 0
    const [least, most] = before ? [before.minMs, before.maxMs] : [own.readyMs, own.latestMs]
    const isMove = lastChain !== null && lastChain !== chain
    bounds.push({ from: previous, to: node, ms: least + task.handsMs })
    bounds.push({ from: index, to: node, ms: (isMove ? changeMs : 0) + task.handsMs })
    if (most !== null) bounds.push({ from: node, to: previous, ms: -(task.handsMs + most + relaxMs) })
    positions[chain] = position + 1
    nodeOf[chain] = node
    lastChain = chain
  })
  chains.forEach(({ tasks, readyMs, latestMs }, chain) => {
    const done = tasks[(positions[chain] ?? 0) - 1]
    const node = nodeOf[chain] ?? 0
    bounds.push({ from: node, to: finishNode, ms: done ? done.minMs : readyMs })
    const most = done ? done.maxMs : latestMs
    if (joins && most !== null) bounds.push({ from: finishNode, to: node, ms: -(most + relaxMs) })
  })
  const goes = joins && lastChain !== null && lastChain !== AT_MACHINE
  bounds.push({ from: sequence.length, to: finishNode, ms: goes ? changeMs : 0 })
  const times = earliest(finishNode + 1, bounds)
  const place = chains.map(() => 0)
  const served = sequence.map((chain, index): Served => {
    const task = place[chain] ?? 0
    place[chain] = task + 1
    const end = times[index + 1] ?? 0
    return { chain, task, start: end - (chains[chain]?.tasks[task]?.handsMs ?? 0), end }
  })
  return { served, finish: times[finishNode] ?? 0 }
}

/** Longest paths from node 0 (Bellman and Ford, from memory); bounds that contradict each other give what came out last. */
function earliest(count: number, bounds: readonly Bound[]): readonly number[] {
  const times = Array.from({ length: count }, () => 0)
  for (let round = 0; round <= count; round += 1) {
    let isChanged = false
    for (const { from, to, ms } of bounds) {
      const time = (times[from] ?? 0) + ms
      if (to !== 0 && time > (times[to] ?? 0)) {
        times[to] = time
        isChanged = true
      }
    }
    if (!isChanged) break
  }
  return times
}
