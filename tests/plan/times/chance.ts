/** Seeded chance, so that a simulation gives the same every time. */
export interface Chance {
  /** From 0 up to 1. */
  uniform(): number
  /** Standard normal (Box and Muller, 1958, from memory). */
  normal(): number
  /** Lognormal with mean 1 and this variance of the logarithm. */
  factor(logVariance: number): number
}

/** A 32-bit counter, its bits mixed by multiplications; common practice, no source. */
export function chance(seed: number): Chance {
  let count = seed
  const uniform = (): number => {
    count = (count + 0x6d2b79f5) | 0
    let bits = Math.imul(count ^ (count >>> 15), 1 | count)
    bits = (bits + Math.imul(bits ^ (bits >>> 7), 61 | bits)) ^ bits
    return ((bits ^ (bits >>> 14)) >>> 0) / 2 ** 32
  }
  const normal = (): number => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform())
  return {
    uniform,
    normal,
    factor: (logVariance) => Math.exp(normal() * Math.sqrt(logVariance) - logVariance / 2)
  }
}
