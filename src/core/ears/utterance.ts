/** One utterance as the ears keep it: band powers of what was said and of the room just before. No sound is kept. */
import { logMel } from './log-mel.ts'
import { percentile } from './percentile.ts'
import { BANDS, WINDOW_FRAMES, WINDOW_STEP } from './sound.ts'

export interface Utterance {
  /** Frames of 32 band powers, one after another. */
  readonly speech: Float32Array
  /** Some frames of the room without the speaker; never empty. */
  readonly room: Float32Array
}

/**
 * The embedding model looks at more than the utterance. What is put there is always the room: then it does not matter
 * what came before, and nothing has to be waited for behind.
 */
const ROOM_BEFORE = 48
const ROOM_BEHIND = 32
/** Room for looking one window earlier and later on each side. */
const SHIFT = WINDOW_STEP
/** Loud frames tell how loud somebody speaks; the quietest third does not. */
const LOUD_SHARE = 0.7
const COMMON_LEVEL = 1e6

export function framesIn(utterance: Utterance): number {
  return utterance.speech.length / BANDS
}

/** Mean power of the loud frames, summed over the bands. */
export function loudness(frames: Float32Array): number {
  const powers = Float32Array.from({ length: frames.length / BANDS }, (_, frame) =>
    frames.subarray(frame * BANDS, (frame + 1) * BANDS).reduce((sum, power) => sum + power, 0)
  )
    .sort()
    .toReversed()
  const loud = powers.subarray(0, Math.max(1, Math.ceil(powers.length * LOUD_SHARE)))
  return loud.reduce((sum, power) => sum + power, 0) / loud.length
}

/** Where a quiet room stirs, a start is looked for too early. Below these nobody was heard, as shares of the loudest moment. */
const SURELY_SILENT = 10 ** -3
const PERHAPS_SILENT = 10 ** -2
/** Times the power of the room. */
const ABOVE_ROOM = 4
/** Next to this much talk or noise, the ends of an utterance may belong to others: shares of its own loud frames. */
const LOUD_ROOM = 10 ** -1.5
const LOUD_PART = 10 ** -1
/** Frames; less would make no difference. */
const LEAST_CUT = 4
/** The lowest bands hum. */
const FIRST_BAND = 4

/** Without the frames before and behind in which nobody could have been heard. In a noisy room there are none. */
export function withoutSilence({ speech, room }: Utterance): Utterance {
  const smooth = smoothed(powersOf(speech))
  const loudest = Math.max(...smooth)
  const inRoom = powersOf(room)
  const usual = inRoom.reduce((sum, power) => sum + power, 0) / inRoom.length
  const least = Math.max(SURELY_SILENT * loudest, Math.min(ABOVE_ROOM * usual, PERHAPS_SILENT * loudest))
  const first = smooth.findIndex((power) => power >= least)
  const last = smooth.findLastIndex((power) => power >= least)
  return { speech: speech.slice(first * BANDS, (last + 1) * BANDS), room }
}

/**
 * The operator is nearer than those who talk in the background: only what is within 10 dB of the loud frames. Null where
 * that is the same, and in a room so quiet that a weak end is surely the operator's.
 */
export function loudPart({ speech, room }: Utterance): Utterance | null {
  const smooth = smoothed(powersOf(speech))
  const loud = percentile(smooth, 0.9)
  if (percentile(powersOf(room), 0.5) < LOUD_ROOM * loud) return null
  const first = smooth.findIndex((power) => power > LOUD_PART * loud)
  const last = smooth.findLastIndex((power) => power > LOUD_PART * loud)
  const cut = smooth.length - (last + 1 - first)
  return cut < LEAST_CUT ? null : { speech: speech.slice(first * BANDS, (last + 1) * BANDS), room }
}

/** A moment's dip is no end. */
function smoothed(powers: Float32Array): Float32Array {
  return powers.map((_, frame) => Math.max(...powers.subarray(Math.max(0, frame - 1), frame + 2)))
}

function powersOf(frames: Float32Array): Float32Array {
  return Float32Array.from({ length: frames.length / BANDS }, (_, frame) =>
    frames.subarray(frame * BANDS + FIRST_BAND, (frame + 1) * BANDS).reduce((sum, power) => sum + power, 0)
  )
}

/** What the embedding model is given: the utterance between frames of its room, brought to a common loudness. */
export function clipOf({ speech, room }: Utterance): Float32Array {
  const before = (ROOM_BEFORE + SHIFT) * BANDS
  const behind = (ROOM_BEHIND + SHIFT) * BANDS
  const clip = new Float32Array(Math.max((WINDOW_FRAMES + 2 * SHIFT) * BANDS, before + speech.length + behind))
  const frames = room.length / BANDS
  for (let at = 0; at < clip.length; at++) {
    // Steps of seven, so that the frames do not repeat in the order in which they came.
    const from = ((Math.floor(at / BANDS) * 7) % frames) * BANDS + (at % BANDS)
    clip[at] = room[from] ?? 0
  }
  clip.set(speech, before)
  const gain = COMMON_LEVEL / Math.max(1e-9, loudness(speech))
  return logMel(clip.map((power) => power * gain))
}
