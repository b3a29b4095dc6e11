/** One utterance as the ears keep it: band powers of what was said and of the room just before. No sound is kept. */
import { logMel } from './log-mel.ts'
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
