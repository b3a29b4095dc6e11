/**
 * What the room of a recording sounds like without its speaker. A clip that was cut out closely would otherwise stand in
 * dead silence, and its own background would seem to begin with the first word: no microphone hears that.
 */
import { SAMPLE_RATE } from '../../src/core/ears/sound.ts'
import { seeded, type Chance } from '../helpers/seeded.ts'
import { meanSquare, speechPower } from './mix.ts'

const GRAIN = 320
const STEP = GRAIN / 2
/** The quietest of a clip is its room. */
const QUIET_SHARE = 0.08
const LEAST_GRAINS = 3
/** A clip without any pause shows no room: then it is taken to be no louder than this against the speech, dB. */
const LOUDEST_DB = -20
const FADE = 0.1 * SAMPLE_RATE

/** Adds `samples` from `start` and its room around it, from `from` to `to`, all times `gain`. */
export function placed(
  into: Float32Array,
  samples: Float32Array,
  {
    start,
    from,
    to,
    gain
  }: { readonly start: number; readonly from: number; readonly to: number; readonly gain: number },
  seed: number
): void {
  const add = (at: number, value: number) => {
    if (at >= 0 && at < into.length) into[at] = (into[at] as number) + gain * value
  }
  // Some sound cards lift everything a little: cut off, that would be a click.
  const lift = samples.reduce((sum, value) => sum + value, 0) / Math.max(1, samples.length)
  const level = samples.map((value) => value - lift)
  level.forEach((value, at) => add(start + at, value))
  const grains = roomGrains(level)
  const chance = seeded(seed)
  const end = start + samples.length
  tone(grains, start - from, chance).forEach((value, at) => add(from + at, value * Math.min(1, at / FADE)))
  tone(grains, to - end, chance).forEach((value, at) => add(end + at, value * Math.min(1, (to - end - at) / FADE)))
}

function roomGrains(samples: Float32Array): readonly Float32Array[] {
  const grains: { readonly grain: Float32Array; readonly power: number }[] = []
  for (let at = 0; at + GRAIN <= samples.length; at += STEP) {
    const grain = samples.slice(at, at + GRAIN)
    grains.push({ grain, power: meanSquare(grain) })
  }
  const quiet = grains
    .filter(({ power }) => power > 0)
    .toSorted((one, other) => one.power - other.power)
    .slice(0, Math.max(LEAST_GRAINS, Math.floor(QUIET_SHARE * grains.length)))
  const most = speechPower(samples) * 10 ** (LOUDEST_DB / 10)
  return quiet.map(({ grain, power }) => {
    const gain = Math.sqrt(Math.min(1, most / power))
    return grain.map((value) => gain * value)
  })
}

/** Pieces of the room over one another, in any order, forwards and backwards: their powers add up to the same level. */
function tone(grains: readonly Float32Array[], length: number, chance: Chance): Float32Array {
  const out = new Float32Array(Math.max(0, length))
  if (grains.length === 0) return out
  for (let begin = -STEP; begin < out.length; begin += STEP) {
    const grain = grains[Math.floor(chance() * grains.length)] as Float32Array
    const isBackwards = chance() < 0.5
    const sign = chance() < 0.5 ? -1 : 1
    for (let k = Math.max(0, -begin); k < GRAIN && begin + k < out.length; k++) {
      const value = grain[isBackwards ? GRAIN - 1 - k : k] as number
      const at = begin + k
      out[at] = (out[at] as number) + sign * value * Math.sin((Math.PI * (k + 0.5)) / GRAIN)
    }
  }
  return out
}
