/** The last so many values of a stream, oldest overwritten. */
export interface History {
  push(value: number): void
  /** In no particular order. */
  values(): Float32Array
}

export function history(size: number): History {
  const kept = new Float32Array(size)
  let count = 0
  return {
    push(value) {
      kept[count % size] = value
      count += 1
    },
    values: () => kept.subarray(0, Math.min(count, size))
  }
}
