/** An invented closing of a machine: two sides with the same steps, waits, a whole-machine step in the middle. */
import type { Chain, Problem } from '../../../src/core/plan/problem.ts'
import { seeded } from '../../helpers/seeded.ts'

export function closingProblem(stepsASide: number, seed: number): Problem {
  const chance = seeded(seed)
  const seconds = (least: number, most: number) => Math.round(least + chance() * (most - least)) * 1000
  const plain = { round: 1, maxMs: null, takes: [], frees: [] }
  const tasks = Array.from({ length: stepsASide }, (_, index) => ({
    ...plain,
    step: `step-${index}`,
    handsMs: seconds(10, 120),
    minMs: chance() < 0.08 ? seconds(120, 720) : 0,
    block: index < stepsASide / 2 ? 0 : 1
  }))
  const side = (lane: string): Chain => ({ lane, tasks, readyMs: 0, latestMs: null, holds: [] })
  const machine: Chain = {
    lane: 'machine',
    tasks: [{ ...plain, step: 'power', handsMs: seconds(10, 60), minMs: 60_000, block: 0 }],
    readyMs: 0,
    latestMs: null,
    holds: []
  }
  return { chains: [side('left'), side('right')], machine, tools: {}, changeMs: 5000, hands: [null] }
}
