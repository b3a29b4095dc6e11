/** The normal distribution. */

export interface Normal {
  readonly density: number
  /** Share below, and above. */
  readonly below: number
  readonly above: number
}

/**
 * At `z` standard deviations from the mean. The share is off by less than 7.5e-8 (Abramowitz and Stegun, Handbook of
 * Mathematical Functions, 26.2.17, from memory).
 */
export function normalAt(z: number): Normal {
  const far = Math.abs(z)
  const density = Math.exp((-far * far) / 2) / Math.sqrt(2 * Math.PI)
  const t = 1 / (1 + 0.2316419 * far)
  const series = t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))))
  const tail = density * series
  return z < 0 ? { density, below: tail, above: 1 - tail } : { density, below: 1 - tail, above: tail }
}

/**
 * Share below `z` of what is close to normal, with a small skewness: the first term of Edgeworth's series (Kendall and
 * Stuart, The Advanced Theory of Statistics, volume 1, chapter 6, from memory).
 */
export function skewedBelow(z: number, skewness: number): number {
  const { density, below } = normalAt(z)
  return Math.min(1, Math.max(0, below - (skewness / 6) * (z * z - 1) * density))
}
