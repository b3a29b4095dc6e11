import type { Label } from './label.ts'

export interface LabelQueue {
  push(label: Label): void
  /** The one with the earliest finish, then the fewest changes, then the one that is furthest. */
  pop(): Label | undefined
}

/** A binary heap. */
export function labelQueue(): LabelQueue {
  const heap: Label[] = []
  return {
    push(label) {
      let at = heap.length
      heap.push(label)
      while (at > 0) {
        const above = (at - 1) >> 1
        const parent = heap[above] as Label
        if (!isBefore(label, parent)) break
        heap[at] = parent
        at = above
      }
      heap[at] = label
    },
    pop() {
      const top = heap[0]
      const moved = heap.pop()
      if (moved === undefined || heap.length === 0) return top
      let at = 0
      for (let child = 1; child < heap.length; child = 2 * at + 1) {
        const right = child + 1
        if (right < heap.length && isBefore(heap[right] as Label, heap[child] as Label)) child = right
        const least = heap[child] as Label
        if (!isBefore(least, moved)) break
        heap[at] = least
        at = child
      }
      heap[at] = moved
      return top
    }
  }
}

function isBefore(a: Label, b: Label): boolean {
  if (a.finish !== b.finish) return a.finish < b.finish
  if (a.leastSwitches !== b.leastSwitches) return a.leastSwitches < b.leastSwitches
  return a.done > b.done
}
