/** Invented planning problems for timing: sides of many steps, a few waits with and without limits, shared tools. */
import type { Chain, Problem, Task } from '../../src/core/plan/problem.ts'
import { lognormal, seeded, type Chance } from '../helpers/seeded.ts'

const SECOND = 1000

/** One pair of hands, beginning anywhere; `steps` a side; no whole-machine step cuts it into easier parts. */
export function inventedProblem(seed: number, sides: number, steps: number): Problem {
  const chance = seeded(seed)
  return {
    chains: Array.from({ length: sides }, (_, side) => inventedSide(`side${side + 1}`, steps, chance)),
    machine: { lane: 'machine', tasks: [], readyMs: 0, latestMs: null, holds: [] },
    tools: { pail: 1, brush: 1 },
    changeMs: 5 * SECOND,
    hands: [null]
  }
}

function inventedSide(lane: string, steps: number, chance: Chance): Chain {
  const between = (least: number, most: number) => least + Math.floor(chance() * (most - least + 1))
  const held = Array.from({ length: steps }, (): { takes: string[]; frees: string[] } => ({ takes: [], frees: [] }))
  // Each tool is held over a few stretches of steps, one after the other.
  for (const [tool, spans, longest] of [['pail', 3, 6] as const, ['brush', 2, 2] as const]) {
    for (let span = 0; span < spans; span += 1) {
      const room = Math.floor(steps / spans)
      const from = span * room + between(0, Math.max(0, room - longest - 1))
      const to = Math.min((span + 1) * room - 1, from + between(0, longest - 1))
      held[from]?.takes.push(tool)
      held[to]?.frees.push(tool)
    }
  }
  const tasks = held.map(({ takes, frees }, index): Task => {
    const waits = index < steps - 1 && chance() < 4 / steps
    const minMs = waits ? between(60, 300) * SECOND : 0
    const isLimited = waits && chance() < 0.5
    return {
      step: `${lane}-${index + 1}`,
      round: 1,
      handsMs: Math.max(5, Math.round(lognormal(chance, 35, 0.6))) * SECOND,
      minMs,
      maxMs: isLimited ? minMs + between(120, 300) * SECOND : null,
      takes,
      frees,
      block: 0
    }
  })
  return { lane, tasks, readyMs: 0, latestMs: null, holds: [] }
}
