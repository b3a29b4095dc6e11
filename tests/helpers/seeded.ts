/** Chance that is the same on every machine: a generator of numbers from 0 up to 1 (mulberry32, public domain). */
export type Chance = () => number

export function seeded(seed: number): Chance {
  let state = seed >>> 0
  return () => {
    state = (state + 0x6d2b79f5) >>> 0
    let mixed = Math.imul(state ^ (state >>> 15), state | 1)
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)) ^ mixed
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296
  }
}

/** Mean 0, spread 1 (Box and Muller 1958). */
export function normal(chance: Chance): number {
  return Math.sqrt(-2 * Math.log(1 - chance())) * Math.cos(2 * Math.PI * chance())
}

/** With the given mean; `cv` is the spread as a share of the mean. */
export function lognormal(chance: Chance, mean: number, cv: number): number {
  const variance = Math.log(1 + cv * cv)
  return mean * Math.exp(Math.sqrt(variance) * normal(chance) - variance / 2)
}
