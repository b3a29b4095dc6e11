/** Numbers that look random and come again with the same seed (mulberry32, public domain, from memory). */
export interface Random {
  /** 0 up to 1. */
  next(): number
  /** Whole, both ends included. */
  between(least: number, most: number): number
  chance(probability: number): boolean
  /** Standard normal (Box and Muller). */
  normal(): number
}

export function seeded(seed: number): Random {
  let state = seed >>> 0
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0
    let mixed = state
    mixed = Math.imul(mixed ^ (mixed >>> 15), mixed | 1)
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296
  }
  return {
    next,
    between: (least, most) => least + Math.floor(next() * (most - least + 1)),
    chance: (probability) => next() < probability,
    normal: () => Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next())
  }
}
