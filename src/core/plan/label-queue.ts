import type { Label } from './label.ts'

export interface LabelQueue {
  push(label: Label): void
  /** The one with the earliest finish, then the fewest changes, then the one that is furthest. */
  pop(): Label | undefined
}

/** A binary heap. */
export function labelQueue(): LabelQueue {
  const heap: { readonly label: Label; readonly done: number }[] = []
  const isBefore = (a: number, b: number): boolean => {
    const [x, y] = [heap[a], heap[b]]
    if (!x || !y) return false
    return (x.label.finish - y.label.finish || x.label.leastSwitches - y.label.leastSwitches || y.done - x.done) < 0
  }
  const swap = (a: number, b: number): void => {
    const [x, y] = [heap[a], heap[b]]
    if (!x || !y) return
    heap[a] = y
    heap[b] = x
  }
  return {
    push(label) {
      heap.push({ label, done: label.positions.reduce((sum, position) => sum + position, 0) })
      for (let at = heap.length - 1; at > 0;) {
        const parent = (at - 1) >> 1
        if (!isBefore(at, parent)) break
        swap(at, parent)
        at = parent
      }
    },
    pop() {
      swap(0, heap.length - 1)
      const top = heap.pop()
      for (let at = 0; ;) {
        const [left, right] = [2 * at + 1, 2 * at + 2]
        const least = [left, right].reduce((best, child) => (isBefore(child, best) ? child : best), at)
        if (least === at) break
        swap(at, least)
        at = least
      }
      return top?.label
    }
  }
}
