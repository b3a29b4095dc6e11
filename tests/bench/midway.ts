/** What is left of a problem once so many tasks of a plan for one pair of hands are served, at the time when the last of them ends. */
import type { PlannedTask } from '../../src/core/plan/plan.ts'
import type { Chain, Problem } from '../../src/core/plan/problem.ts'

/** For problems without whole-machine tasks. */
export function midway(problem: Problem, order: readonly PlannedTask[], served: number): Problem {
  const done = order.slice(0, served)
  const now = done.at(-1)?.end ?? 0
  const chains = problem.chains.map((chain): Chain => {
    const own = done.filter(({ lane }) => lane === chain.lane)
    const last = chain.tasks[own.length - 1]
    const ended = (own.at(-1)?.end ?? 0) - now
    const holds = chain.tasks
      .slice(0, own.length)
      .reduce<readonly string[]>(
        (held, { takes, frees }) => [...held, ...takes].filter((tool) => !frees.includes(tool)),
        chain.holds
      )
    return {
      lane: chain.lane,
      tasks: chain.tasks.slice(own.length),
      readyMs: Math.max(0, last ? ended + last.minMs : chain.readyMs - now),
      latestMs: last ? last.maxMs && ended + last.maxMs : chain.latestMs && chain.latestMs - now,
      holds
    }
  })
  return { ...problem, chains, hands: [done.at(-1)?.lane ?? problem.hands[0] ?? null] }
}
