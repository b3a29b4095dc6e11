/** Kitchens for practice takes: what a take would have been with noise around it. Powers of unrelated sounds add. */
import { melFrames } from './mel-stream.ts'
import { SEGMENTER } from './segmenter.ts'
import { BANDS, SAMPLE_RATE } from './sound.ts'
import { framesIn, loudness, type Utterance } from './utterance.ts'

const SECONDS = 3
const MOST_DB = 20

/** Numbers from 0 up to 1, the same every time (Park and Miller 1988). */
function evenNumbers(): () => number {
  let state = 20_261
  return () => {
    state = (state * 48_271) % 2_147_483_647
    return state / 2_147_483_647
  }
}

/** `keep` is how much of the last sample stays: 0 is white, near 1 rumbles. */
function noise(keep: number): Float32Array {
  const even = evenNumbers()
  let low = 0
  return melFrames(
    Float32Array.from({ length: SECONDS * SAMPLE_RATE }, () => {
      const white = Math.sqrt(-2 * Math.log(1 - even())) * Math.cos(2 * Math.PI * even())
      low = keep * low + (1 - keep) * 4 * white
      return 0.01 * (keep === 0 ? white : low + 0.02 * white)
    })
  )
}

/** Several voices at once, from the operator's own words, each begun elsewhere. */
export function babbleOf(utterances: readonly Utterance[]): Float32Array {
  const voices = utterances.slice(0, 6).map(({ speech }) => speech)
  const length = 300 * BANDS
  return Float32Array.from({ length }, (_, at) =>
    voices.reduce((sum, voice, number) => sum + (voice[(at + number * 37 * BANDS) % voice.length] ?? 0), 0)
  )
}

/** Signal-to-noise ratios in dB. */
const KITCHENS = [
  { noise: 'white', snr: 15 },
  { noise: 'white', snr: 5 },
  { noise: 'even', snr: 12 },
  { noise: 'even', snr: 4 },
  { noise: 'rumble', snr: 12 },
  { noise: 'rumble', snr: 4 },
  { noise: 'babble', snr: 10 },
  { noise: 'babble', snr: 4 }
] as const
/** Ends are never found twice at the same place: frames that each kitchen's take begins and ends later. */
const MOVED = [
  [-5, 5],
  [5, -5],
  [0, 3],
  [-3, 0],
  [3, 0],
  [0, -4],
  [2, 4],
  [-2, 2]
] as const

export interface Kitchens {
  /** The take itself, then as it would be in each kitchen. */
  around(take: Utterance): readonly Utterance[]
}

export function kitchens(babble: Float32Array): Kitchens {
  const noises = { white: noise(0), even: noise(0.75), rumble: noise(0.93), babble }
  let turn = 0
  const mixed = (frames: Float32Array, with_: Float32Array, gain: number) => {
    turn = (turn + 83) % 200
    return frames.map((power, at) => power + gain * (with_[(turn * BANDS + at) % with_.length] ?? 0))
  }
  return {
    around(take) {
      const level = loudness(take.speech)
      const noisy = KITCHENS.map((kitchen, number): Utterance => {
        const [begin = 0, end = 0] = MOVED[number] ?? []
        const frames = noises[kitchen.noise]
        const gain = level / (meanPower(frames) * 10 ** (kitchen.snr / 10))
        const moved = withMovedEnds(withoutDrowned(take, frames, gain), begin, end)
        return { speech: mixed(moved.speech, frames, gain), room: mixed(moved.room, frames, gain) }
      })
      return [take, ...noisy]
    }
  }
}

function meanPower(frames: Float32Array): number {
  return Math.max(1e-9, (frames.reduce((sum, power) => sum + power, 0) * BANDS) / frames.length)
}

/** The ends that nobody could hear in that noise are not found in it either. */
function withoutDrowned(take: Utterance, room: Float32Array, gain: number): Utterance {
  const usual = Array.from({ length: BANDS }, (_, band) => gain * meanOfBand(room, band))
  const stands = Array.from({ length: framesIn(take) }, (_, frame) => {
    const above = usual.map((power, band) =>
      Math.min(MOST_DB, 10 * Math.log10(1 + (take.speech[frame * BANDS + band] ?? 0) / power))
    )
    return above.reduce((sum, db) => sum + db, 0) / BANDS > SEGMENTER.stayProminence
  })
  const first = stands.indexOf(true)
  const last = stands.lastIndexOf(true)
  if (last - first < SEGMENTER.shortest) return take
  return { ...take, speech: take.speech.slice(first * BANDS, (last + 1) * BANDS) }
}

function meanOfBand(frames: Float32Array, band: number): number {
  let sum = 0
  for (let at = band; at < frames.length; at += BANDS) sum += frames[at] ?? 0
  return Math.max(1e-9, (sum * BANDS) / frames.length)
}

/** Cuts frames off, or puts frames of the room there. */
function withMovedEnds(take: Utterance, begin: number, end: number): Utterance {
  const frames = framesIn(take)
  const first = Math.min(begin, Math.max(0, frames - 10))
  const length = Math.max(10, frames - first + end)
  const room = take.room.length / BANDS
  const speech = Float32Array.from({ length: length * BANDS }, (_, at) => {
    const frame = Math.floor(at / BANDS) + first
    const band = at % BANDS
    return frame >= 0 && frame < frames
      ? (take.speech[frame * BANDS + band] ?? 0)
      : (take.room[((frame + frames) % room) * BANDS + band] ?? 0)
  })
  return { speech, room: take.room }
}
