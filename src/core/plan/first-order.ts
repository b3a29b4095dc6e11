/** A good order to begin with: a sweep that keeps the few most promising labels of each length. */
import { knownLabels } from './known-labels.ts'
import type { Label } from './label.ts'

/** Null when every label kept came to nothing. */
export function firstOrder(
  start: Label,
  next: (label: Label) => Label[],
  isComplete: (label: Label) => boolean,
  budget: number
): Label | null {
  const width = Math.max(4, Math.min(24, Math.floor(budget / 1000)))
  let front: Label[] = [start]
  while (front.length > 0) {
    const whole = front.filter(isComplete)
    if (whole.length > 0) return whole.sort(compare)[0] ?? null
    const known = knownLabels()
    const fresh = front.flatMap(next).filter((label) => known.keeps(label))
    front = fresh
      .filter(({ isBeaten }) => !isBeaten)
      .sort(compare)
      .slice(0, width)
  }
  return null
}

function compare(a: Label, b: Label): number {
  return a.finish - b.finish || a.leastSwitches - b.leastSwitches
}
