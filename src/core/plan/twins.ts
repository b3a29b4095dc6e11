import type { Segment } from './segment.ts'

/**
 * For each chain the one before it that is just like it, -1 where there is none. Which of two such chains begins makes no
 * difference, so only orders that begin with the earlier one need be looked at.
 */
export function twinsIn({ chains, at }: Segment): readonly number[] {
  const latest = new Map<string, number>()
  return chains.map(({ tasks, readyMs, latestMs, holds }, chain) => {
    // The hands are there already: that is a difference.
    if (chain === at) return -1
    const likeness = JSON.stringify([tasks.map((task) => ({ ...task, step: '', round: 0 })), readyMs, latestMs, holds])
    const twin = latest.get(likeness) ?? -1
    latest.set(likeness, chain)
    return twin
  })
}
