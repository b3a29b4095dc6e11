/**
 * Whether all chains can still be served to their ends as far as tools go, whatever the time. Only tasks that take or
 * free something count, so a chain is a short row of stages.
 */
import { holdingOf, type Segment, type SegmentChain } from './segment.ts'

export interface ToolOrder {
  /** False only when it is certain that no order lets every task have its tools. */
  canFinish(positions: readonly number[]): boolean
  /** The task takes or frees something. */
  concerns(chain: number, position: number): boolean
  /** The next task of a chain finds its tools. */
  isFree(positions: readonly number[], chain: number): boolean
  /** Where serving whatever can be served comes to an end: a chain and its place there; null when that is the end of all. */
  firstStuck(): { readonly chain: number; readonly task: number } | null
}

interface Stages {
  /** Stage of each position: how many tasks that take or free came before it. */
  readonly of: readonly number[]
  /** For each stage the place of its first task that takes or frees. */
  readonly tasks: readonly number[]
  /** For each stage: how many of each tool the chain holds. */
  readonly holds: readonly (readonly number[])[]
  /** For each stage: indices of the tools that its task takes. */
  readonly takes: readonly (readonly number[])[]
}

/** So many states are looked at before what is not known to be in vain counts as possible. */
const MOST_STATES = 20_000

export function toolOrder({ chains, tools }: Segment): ToolOrder {
  const names = Object.keys(tools).filter((tool) =>
    chains.some(({ tasks }) => tasks.some(({ takes }) => takes.includes(tool)))
  )
  const counts = names.map((name) => tools[name] ?? 0)
  const stages = chains.map((chain) => stagesOf(chain, names))
  const known = new Map<string, boolean>()

  function isFreeAt(places: readonly number[], chain: number): boolean {
    const takes = stages[chain]?.takes[places[chain] ?? 0] ?? []
    for (const tool of takes) {
      let inUse = 0
      for (let other = 0; other < stages.length; other += 1)
        inUse += stages[other]?.holds[places[other] ?? 0]?.[tool] ?? 0
      if (inUse >= (counts[tool] ?? 0)) return false
    }
    return true
  }

  const isOver = (places: readonly number[], chain: number) =>
    (places[chain] ?? 0) >= (stages[chain]?.tasks.length ?? 0)

  /** Goes on with whatever chain comes to hold as little as on the way there: that can be in nobody's way. */
  function settled(places: readonly number[]): number[] {
    const now = [...places]
    for (let isMoving = true; isMoving;) {
      isMoving = false
      for (let chain = 0; chain < stages.length; chain += 1) {
        const trial = [...now]
        let least = stages[chain]?.holds[now[chain] ?? 0] ?? []
        while (!isOver(trial, chain) && isFreeAt(trial, chain)) {
          const place = (trial[chain] ?? 0) + 1
          trial[chain] = place
          const holds = stages[chain]?.holds[place] ?? []
          least = least.map((count, tool) => Math.min(count, holds[tool] ?? 0))
          if (holds.every((count, tool) => count <= (least[tool] ?? 0))) {
            now[chain] = place
            isMoving = true
          }
        }
      }
    }
    return now
  }

  function isSafe(places: readonly number[]): boolean {
    const now = settled(places)
    if (stages.every((_, chain) => isOver(now, chain))) return true
    const key = now.join(' ')
    const before = known.get(key)
    if (before !== undefined) return before
    if (known.size >= MOST_STATES) return true
    known.set(key, false)
    const safe = stages.some((_, chain) => {
      if (isOver(now, chain) || !isFreeAt(now, chain)) return false
      const next = [...now]
      next[chain] = (next[chain] ?? 0) + 1
      return isSafe(next)
    })
    known.set(key, safe)
    return safe
  }

  const concerns = (chain: number, position: number) => {
    const stage = stages[chain]
    return stage?.tasks[stage.of[position] ?? 0] === position
  }

  const answers = new Map<number, boolean>()
  const radix = Math.max(0, ...stages.map(({ tasks }) => tasks.length)) + 1
  const placesAt = (positions: readonly number[]) => stages.map(({ of }, chain) => of[positions[chain] ?? 0] ?? 0)
  return {
    canFinish(positions) {
      if (names.length === 0) return true
      let key = 0
      for (let chain = 0; chain < stages.length; chain += 1)
        key = key * radix + (stages[chain]?.of[positions[chain] ?? 0] ?? 0)
      const answer = answers.get(key) ?? isSafe(placesAt(positions))
      // Beyond whole numbers that a number holds exactly, two states might share a key.
      if (key <= Number.MAX_SAFE_INTEGER) answers.set(key, answer)
      return answer
    },
    concerns,
    isFree: (positions, chain) => !concerns(chain, positions[chain] ?? 0) || isFreeAt(placesAt(positions), chain),
    firstStuck() {
      const places = settled(stages.map(() => 0))
      for (;;) {
        const chain = stages.findIndex((_, index) => !isOver(places, index) && isFreeAt(places, index))
        if (chain < 0) break
        places[chain] = (places[chain] ?? 0) + 1
      }
      const chain = stages.findIndex((_, index) => !isOver(places, index))
      return chain < 0 ? null : { chain, task: stages[chain]?.tasks[places[chain] ?? 0] ?? 0 }
    }
  }
}

function stagesOf(chain: SegmentChain, names: readonly string[]): Stages {
  const holding = names.map((name) => holdingOf(chain, name))
  const counts = (position: number) => holding.map((held) => held[position] ?? 0)
  const tasks = chain.tasks.flatMap(({ takes, frees }, index) => (takes.length + frees.length > 0 ? [index] : []))
  return {
    of: Array.from({ length: chain.tasks.length + 1 }, (_, position) => tasks.filter((at) => at < position).length),
    tasks,
    holds: [counts(0), ...tasks.map((at) => counts(at + 1))],
    takes: tasks.map((at) => (chain.tasks[at]?.takes ?? []).map((name) => names.indexOf(name)))
  }
}
