/** A chain in numbers, for the inner loops of the search. Times in ms, infinite where there is no maximum. */
import type { SegmentChain } from './segment.ts'

export interface ChainTable {
  readonly length: number
  readonly readyMs: number
  readonly latestMs: number
  readonly hands: readonly number[]
  readonly min: readonly number[]
  readonly max: readonly number[]
  /** From each position on: hands-on time. */
  readonly handsFrom: readonly number[]
  /** From each position on: the whole chain with its minimum waits, the trailing one included. */
  readonly chainFrom: readonly number[]
  /** During a wait within a chain the hands idle, or leave and come back: it costs them the smaller of the two. */
  readonly leavingFrom: readonly number[]
  /** From each position on: hands-on time up to the longest wait that is left, the trailing one included ... */
  readonly workToWait: readonly number[]
  /** ... and the rest of the chain with that wait. */
  readonly tailFromWait: readonly number[]
  /** From each position on: the waits within the chain, shortest first. */
  readonly waitsFrom: readonly (readonly number[])[]
}

export function chainTable({ tasks, readyMs, latestMs }: SegmentChain, changeMs: number): ChainTable {
  const infinite = Number.POSITIVE_INFINITY
  const last = tasks.length - 1
  const handsFrom = sumsFrom(tasks.map(({ handsMs }) => handsMs))
  const chainFrom = sumsFrom(tasks.map(({ handsMs, minMs }) => handsMs + minMs))
  const longest = longestWaitFrom(tasks.map(({ minMs }) => minMs))
  const afterWait = longest.map((index) => Math.min(index + 1, tasks.length))
  return {
    length: tasks.length,
    readyMs,
    latestMs: latestMs ?? infinite,
    hands: tasks.map(({ handsMs }) => handsMs),
    min: tasks.map(({ minMs }) => minMs),
    max: tasks.map(({ maxMs }) => maxMs ?? infinite),
    handsFrom,
    chainFrom,
    leavingFrom: sumsFrom(tasks.map(({ minMs }, index) => (index < last ? Math.min(minMs, changeMs) : 0))),
    workToWait: afterWait.map((after, index) => (handsFrom[index] ?? 0) - (handsFrom[after] ?? 0)),
    tailFromWait: afterWait.map((after) => (tasks[after - 1]?.minMs ?? 0) + (chainFrom[after] ?? 0)),
    waitsFrom: waitsFrom(tasks.map(({ minMs }, index) => (index < last ? minMs : 0)))
  }
}

/** Sums from each place to the end. */
function sumsFrom(values: readonly number[]): readonly number[] {
  const sums = [...values, 0]
  for (let index = values.length - 1; index >= 0; index -= 1)
    sums[index] = (sums[index + 1] ?? 0) + (values[index] ?? 0)
  return sums
}

function waitsFrom(waits: readonly number[]): readonly (readonly number[])[] {
  const lists: (readonly number[])[] = [[]]
  let list: readonly number[] = []
  for (const wait of [...waits].reverse()) {
    if (wait > 0) list = [...list, wait].sort((a, b) => a - b)
    lists.push(list)
  }
  return lists.reverse()
}

/** For each place the index of the longest wait from there on. */
function longestWaitFrom(waits: readonly number[]): readonly number[] {
  const places = waits.map((_, index) => index)
  for (let index = waits.length - 2; index >= 0; index -= 1) {
    const later = places[index + 1] ?? index
    if ((waits[later] ?? 0) >= (waits[index] ?? 0)) places[index] = later
  }
  return [...places, waits.length]
}
