import type { Segment } from './segment.ts'

/**
 * For each chain the one before it that is just like it, -1 where there is none. Which of two such chains begins makes no
 * difference, so only orders that begin with the earlier one need be looked at. A chain that has to be served first counts
 * as the earliest.
 */
export function twinsIn({ chains, at }: Segment): (firstOn: number | null) => readonly number[] {
  const likeness = chains.map(({ tasks, readyMs, latestMs, holds }) =>
    JSON.stringify([tasks.map((task) => ({ ...task, step: '', round: 0 })), readyMs, latestMs, holds])
  )
  return (firstOn) => {
    const latest = new Map<string, number>()
    const twins = chains.map(() => -1)
    const places = chains.map((_, chain) => chain)
    for (const chain of places.sort((a, b) => Number(b === firstOn) - Number(a === firstOn) || a - b)) {
      // The hands are there already: that is a difference.
      if (chain === at) continue
      const same = likeness[chain] ?? ''
      twins[chain] = latest.get(same) ?? -1
      latest.set(same, chain)
    }
    return twins
  }
}
