/** Kitchen noise made by sums, so that a set can be made anew anywhere. Another seed gives other machines and rooms. */
import { seeded, normal, type Chance } from '../helpers/seeded.ts'
import { SAMPLE_RATE } from '../../src/core/ears/sound.ts'

export const NOISES = ['fan', 'clatter', 'water'] as const
export type NoiseKind = (typeof NOISES)[number]

/** Loudness means nothing yet: `mixedAt` sets it. */
export function kitchenNoise(kind: NoiseKind, seconds: number, seed: number): Float32Array {
  const chance = seeded(seed)
  return { fan, clatter, water }[kind](Math.round(seconds * SAMPLE_RATE), chance)
}

function between(chance: Chance, low: number, high: number): number {
  return low + (high - low) * chance()
}

/** Air: noise that falls by 6 dB an octave above a corner, with the tones of the blades. */
function fan(length: number, chance: Chance): Float32Array {
  const corner = between(chance, 150, 500)
  const keep = Math.exp((-2 * Math.PI * corner) / SAMPLE_RATE)
  const blades = between(chance, 70, 160)
  const tones = [1, 2, 3, 4].map((harmonic) => ({ hz: blades * harmonic, size: between(chance, 0.02, 0.1) / harmonic }))
  const flutterHz = between(chance, 2, 7)
  let low = 0
  return Float32Array.from({ length }, (_, at) => {
    const white = normal(chance)
    low = keep * low + (1 - keep) * white
    const turn = (2 * Math.PI * at) / SAMPLE_RATE
    const hum = tones.reduce((sum, { hz, size }) => sum + size * Math.sin(hz * turn), 0)
    return (low + 0.03 * white) * (1 + 0.15 * Math.sin(flutterHz * turn)) + hum
  })
}

/** Running water: broad, brightest around a few kilohertz, with drops. */
function water(length: number, chance: Chance): Float32Array {
  const middle = between(chance, 900, 2600)
  const turn = (2 * Math.PI * middle) / SAMPLE_RATE
  const radius = between(chance, 0.4, 0.7)
  let [y1, y2, slow] = [0, 0, 0]
  const drops = struck(length, chance, { perSecond: 12, lowest: 600, highest: 2500, ringMs: 12 })
  return Float32Array.from({ length }, (_, at) => {
    const white = normal(chance)
    const y = white + 2 * radius * Math.cos(turn) * y1 - radius * radius * y2
    y2 = y1
    y1 = y
    slow = 0.9997 * slow + 0.0003 * normal(chance) * 8
    return (y + 0.4 * white) * (1 + 0.3 * Math.tanh(slow)) + 2 * (drops[at] ?? 0)
  })
}

/** Pans and cutlery: ringing blows over a quiet room. */
function clatter(length: number, chance: Chance): Float32Array {
  const blows = struck(length, chance, { perSecond: between(chance, 2, 5), lowest: 700, highest: 6500, ringMs: 60 })
  return blows.map((value) => value + 0.02 * normal(chance))
}

function struck(
  length: number,
  chance: Chance,
  how: { readonly perSecond: number; readonly lowest: number; readonly highest: number; readonly ringMs: number }
): Float32Array {
  const out = new Float32Array(length)
  for (let at = 0; at < length; at += Math.ceil((-Math.log(1 - chance()) * SAMPLE_RATE) / how.perSecond)) {
    const loud = Math.exp(between(chance, -2, 0.5))
    for (let mode = 0; mode < 4; mode++) {
      const step = (2 * Math.PI * between(chance, how.lowest, how.highest)) / SAMPLE_RATE
      const decay = (how.ringMs / 1000) * SAMPLE_RATE * between(chance, 0.3, 1.5)
      const size = loud * between(chance, 0.2, 1)
      for (let k = 0; k < decay * 5 && at + k < length; k++) {
        out[at + k] = (out[at + k] ?? 0) + size * Math.exp(-k / decay) * Math.sin(step * k)
      }
    }
  }
  return out
}
