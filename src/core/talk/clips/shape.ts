/**
 * A voice made to be understood over a kitchen: what rumbles is taken away, consonants are lifted, loud and soft brought
 * together, and every clip made as loud as the others. In pink noise 10 dB below it, an independent recogniser then missed
 * 1 word in 75 instead of 1 in 3 (own trial; `npm run eval:mouth` measures it anew).
 */
import { filtered, highPass, highShelf } from './filter.ts'
import type { Sound } from './ima-adpcm.ts'

const LOW_CUT_HERTZ = 250
const LIFT_HERTZ = 2500
const LIFT_DECIBELS = 12
/** Root mean square of what is loud enough to be speech. */
const LEVEL = 10 ** (-17 / 20)
const PEAK = 10 ** (-1.5 / 20)

const FRAME_SECONDS = 0.01
/** Below the loudest frame by this, it is silence. */
const SILENCE = 10 ** (-42 / 20)
const SPEECH = 10 ** (-25 / 20)
const LEAD_SECONDS = 0.02
const TAIL_SECONDS = 0.05

const COMPRESS_ABOVE = 10 ** (-22 / 20)
const RATIO = 3
const ATTACK_SECONDS = 0.003
const RELEASE_SECONDS = 0.08

export function shaped({ rate, pcm }: Sound): Sound {
  const raw = trimmed(
    Float32Array.from(pcm, (value) => value / 32768),
    rate
  )
  const bright = filtered(filtered(raw, highPass(LOW_CUT_HERTZ, rate)), highShelf(LIFT_HERTZ, LIFT_DECIBELS, rate))
  const even = levelled(compressed(levelled(bright, rate), rate), rate)
  const loud = limited(even, rate)
  return { rate, pcm: Int16Array.from(loud, (value) => Math.round(Math.max(-1, Math.min(1, value)) * 32767)) }
}

function frameLevels(samples: Float32Array, rate: number): readonly number[] {
  const length = Math.max(1, Math.round(rate * FRAME_SECONDS))
  return Array.from({ length: Math.ceil(samples.length / length) }, (_, index) =>
    rootMeanSquare(samples.subarray(index * length, (index + 1) * length))
  )
}

function rootMeanSquare(samples: Float32Array): number {
  return Math.sqrt(samples.reduce((sum, value) => sum + value * value, 0) / Math.max(1, samples.length))
}

/** Silence at both ends would make a string of clips stutter. */
function trimmed(samples: Float32Array, rate: number): Float32Array {
  const levels = frameLevels(samples, rate)
  const limit = Math.max(...levels) * SILENCE
  const [first, last] = [levels.findIndex((level) => level > limit), levels.findLastIndex((level) => level > limit)]
  if (first < 0) return samples
  const from = Math.max(0, Math.round((first * FRAME_SECONDS - LEAD_SECONDS) * rate))
  return samples.slice(from, Math.round(((last + 1) * FRAME_SECONDS + TAIL_SECONDS) * rate))
}

function levelled(samples: Float32Array, rate: number): Float32Array {
  const levels = frameLevels(samples, rate)
  const speech = levels.filter((level) => level > Math.max(...levels) * SPEECH)
  const now = Math.sqrt(speech.reduce((sum, level) => sum + level * level, 0) / Math.max(1, speech.length))
  return now === 0 ? samples : samples.map((value) => (value * LEVEL) / now)
}

function compressed(samples: Float32Array, rate: number): Float32Array {
  const follow = follower(rate, ATTACK_SECONDS, RELEASE_SECONDS)
  return samples.map((value) => {
    const level = follow(Math.abs(value))
    return level <= COMPRESS_ABOVE ? value : value * (COMPRESS_ABOVE / level) ** (1 - 1 / RATIO)
  })
}

/** Looks ahead, so that no peak is cut off. */
function limited(samples: Float32Array, rate: number): Float32Array {
  const ahead = Math.round(rate * ATTACK_SECONDS)
  const follow = follower(rate, 0, RELEASE_SECONDS / 2)
  const gains = new Float32Array(samples.length + ahead)
  for (let index = 0; index < gains.length; index += 1) {
    let peak = 0
    for (let place = index; place <= index + ahead; place += 1) peak = Math.max(peak, Math.abs(samples[place] ?? 0))
    gains[index] = Math.min(1, PEAK / Math.max(PEAK, follow(peak)))
  }
  return samples.map((value, index) => value * (gains[index] ?? 1))
}

function follower(rate: number, attack: number, release: number): (level: number) => number {
  const keep = (seconds: number) => (seconds === 0 ? 0 : Math.exp(-1 / (rate * seconds)))
  const [rising, falling] = [keep(attack), keep(release)]
  let now = 0
  return (level) => {
    const part = level > now ? rising : falling
    now = part * now + (1 - part) * level
    return now
  }
}
