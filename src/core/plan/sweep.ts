/** Good orders, quickly: a sweep from start to end that keeps the few most promising labels of each length. */
import { knownLabels } from './known-labels.ts'
import type { Label } from './label.ts'

export interface SweepOptions {
  /** How many labels of each length are kept. */
  readonly width: number
  /** Only what is better is of interest. */
  readonly toBeat: Label | null
}

/** Null when every label kept came to nothing. */
export function sweep(
  start: Label,
  next: (label: Label) => Label[],
  isComplete: (label: Label) => boolean,
  { width, toBeat }: SweepOptions
): Label | null {
  let front: Label[] = [start]
  while (front.length > 0) {
    const whole = front.filter(isComplete)
    if (whole.length > 0) return whole.sort(compare)[0] ?? null
    const known = knownLabels()
    const fresh = front
      .flatMap(next)
      .filter((label) => (toBeat === null || compare(label, toBeat) < 0) && known.keeps(label))
    front = fresh
      .filter(({ isBeaten }) => !isBeaten)
      .sort(compare)
      .slice(0, width)
  }
  return null
}

/** Earlier first, then fewer changes of lane. */
export function compare(a: Label, b: Label): number {
  return a.finish - b.finish || a.leastSwitches - b.leastSwitches
}
