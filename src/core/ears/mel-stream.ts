/** Turns a stream of samples into frames of band powers. */
import { FOURIER_SIZE } from './fourier.ts'
import { melPowers } from './mel.ts'
import { BANDS, FRAME_SAMPLES } from './sound.ts'

export interface MelStream {
  /** Samples in any portions; gives the frames that became complete, one after another, 32 powers each. */
  push(samples: Float32Array): Float32Array
}

export function melStream(): MelStream {
  let kept = new Float32Array(0)
  return {
    push(samples) {
      const all = new Float32Array(kept.length + samples.length)
      all.set(kept)
      all.set(samples, kept.length)
      const count = Math.max(0, Math.floor((all.length - FOURIER_SIZE) / FRAME_SAMPLES) + 1)
      const frames = new Float32Array(count * BANDS)
      for (let frame = 0; frame < count; frame++) melPowers(all, frame * FRAME_SAMPLES, frames, frame * BANDS)
      kept = all.slice(count * FRAME_SAMPLES)
      return frames
    }
  }
}

/** Frames of a whole recording. */
export function melFrames(samples: Float32Array): Float32Array {
  return melStream().push(samples)
}
