/** The labels met so far, less those that another one makes superfluous. */
import type { Label } from './label.ts'

export interface KnownLabels {
  /** Adds a label unless one of the same state is at least as good in everything; marks those it beats itself. */
  keeps(label: Label): boolean
}

export function knownLabels(): KnownLabels {
  const seen = new Map<number, Label[]>()
  return {
    keeps(label) {
      const rivals = seen.get(label.state)
      if (rivals === undefined) {
        seen.set(label.state, [label])
        return true
      }
      for (const rival of rivals) if (isAsGood(rival, label)) return false
      let kept = 0
      for (const rival of rivals) {
        if (isAsGood(label, rival)) rival.isBeaten = true
        else rivals[kept++] = rival
      }
      rivals.length = kept
      rivals.push(label)
      return true
    }
  }
}

function isAsGood(a: Label, b: Label): boolean {
  if (a.switches > b.switches || a.finish > b.finish) return false
  const [ours, theirs] = [a.bounds, b.bounds]
  for (let index = 0; index < ours.length; index += 1) {
    if ((ours[index] ?? 0) > (theirs[index] ?? 0)) return false
  }
  return true
}
