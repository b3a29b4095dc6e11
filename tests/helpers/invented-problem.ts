/** Planning problems of the size and kind that kitchens have. Invented, not recorded from a shop. */
import type { Chain, Problem, Task } from '../../src/core/plan/problem.ts'
import type { Random } from './random.ts'

export interface InventedShape {
  readonly sides: number
  readonly steps: number
  /** Share of the waits that have a maximum, and how much longer than the minimum it is, ms. */
  readonly limited: number
  readonly roomMs: number
  /** A pail that only one side can have, held over a stretch of each side. */
  readonly tool: boolean
}

const SECOND = 1000
const WAIT_EVERY = 15

export function inventedProblem(random: Random, shape: InventedShape): Problem {
  return {
    chains: Array.from({ length: shape.sides }, (_, side) => inventedChain(random, shape, `side${side}`)),
    machine: { lane: 'machine', tasks: [], readyMs: 0, latestMs: null, holds: [] },
    tools: { pail: 1 },
    changeMs: 5 * SECOND,
    hands: [null]
  }
}

function inventedChain(random: Random, { steps, limited, roomMs, tool }: InventedShape, lane: string): Chain {
  const from = random.between(2, Math.max(2, Math.floor(steps / 2)))
  const to = from + random.between(2, Math.max(2, Math.floor(steps / 4)))
  const tasks = Array.from({ length: steps }, (_, index): Task => {
    const waits = random.chance(1 / WAIT_EVERY)
    const minMs = waits ? random.between(60, 600) * SECOND : 0
    return {
      step: `${lane}-${index}`,
      round: 1,
      handsMs: random.between(5, 60) * SECOND,
      minMs,
      maxMs: waits && random.chance(limited) ? minMs + roomMs : null,
      takes: tool && index === from ? ['pail'] : [],
      frees: tool && index === to ? ['pail'] : [],
      block: 0
    }
  })
  return { lane, tasks, readyMs: 0, latestMs: null, holds: [] }
}
