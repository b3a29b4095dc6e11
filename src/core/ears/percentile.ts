/** The value that `share` (0 to 1) of `values` lie below; 0 for none. */
export function percentile(values: Float32Array, share: number): number {
  const sorted = values.toSorted()
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? 0
}
