/** The first half of the ears, up to whole utterances. */
import { aboveRoom } from './above-room.ts'
import { frameStore, type FrameStore } from './frame-store.ts'
import { melStream } from './mel-stream.ts'
import type { EarModels } from './models.ts'
import { prominence } from './prominence.ts'
import { segmenter, type Hearing } from './segmenter.ts'
import { BANDS, FRAME_SAMPLES, VOICE_SAMPLES } from './sound.ts'
import { withoutSilence } from './utterance.ts'

export interface UtteranceFinder {
  /** Samples at 16 kHz in any portions; what each frame meant goes to `tell`, one after another. */
  push(samples: Float32Array, tell: (hearing: Hearing) => Promise<void>): Promise<void>
  readonly utterance: FrameStore['utterance']
  /** Frames of 10 ms so far. */
  now(): number
}

export function utteranceFinder(models: EarModels): UtteranceFinder {
  const mel = melStream()
  const stand = prominence()
  const above = aboveRoom()
  const segments = segmenter()
  const store = frameStore()
  let waiting = new Float32Array(0)
  /** Of the last portions only, the newest last. */
  let voices: readonly number[] = []
  let portions = 0
  let at = 0

  /** A frame is complete a little after the portion that it begins in. */
  const voiceOfFrame = () => voices.at(Math.floor((at * FRAME_SAMPLES) / VOICE_SAMPLES) - portions) ?? 0

  return {
    async push(samples, tell) {
      const all = new Float32Array(waiting.length + samples.length)
      all.set(waiting)
      all.set(samples, waiting.length)
      let from = 0
      for (; from + VOICE_SAMPLES <= all.length; from += VOICE_SAMPLES) {
        const portion = all.slice(from, from + VOICE_SAMPLES)
        voices = [...voices.slice(-3), await models.voice(portion)]
        portions += 1
        const frames = mel.push(portion)
        for (let k = 0; k < frames.length; k += BANDS) {
          const frame = frames.slice(k, k + BANDS)
          store.push(frame)
          const voice = voiceOfFrame()
          at += 1
          await tell(segments.push(voice, stand.push(frame), above.push(frame)))
        }
      }
      waiting = all.slice(from)
    },
    utterance(segment) {
      const found = store.utterance(segment)
      return found && withoutSilence(found)
    },
    now: () => at
  }
}
