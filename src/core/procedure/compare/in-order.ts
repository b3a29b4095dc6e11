/**
 * Of what stands in both lists: the longest part that kept its order. The rest was moved, and is the least that has to
 * be told to make one order of the other.
 */
export function inOrder(before: readonly string[], after: readonly string[]): ReadonlySet<string> {
  const place = new Map(before.map((id, index) => [id, index]))
  const common = after.flatMap((id) => {
    const at = place.get(id)
    return at === undefined ? [] : [{ id, at }]
  })
  // Patience sorting: the end of the best chain of each length, and what came before each entry in its own.
  const ends: number[] = []
  const previous: number[] = []
  common.forEach(({ at }, index) => {
    let [low, high] = [0, ends.length]
    while (low < high) {
      const middle = (low + high) >> 1
      if ((common[ends[middle] ?? 0]?.at ?? 0) < at) low = middle + 1
      else high = middle
    }
    previous[index] = low === 0 ? -1 : (ends[low - 1] ?? -1)
    ends[low] = index
  })
  const kept = new Set<string>()
  for (let index = ends.at(-1) ?? -1; index >= 0; index = previous[index] ?? -1) kept.add(common[index]?.id ?? '')
  return kept
}
