/** Plays one stream to the ears and compares what they find with what was said where. */
import { listener, type Finding } from '../../src/core/ears/listener.ts'
import type { EarModels } from '../../src/core/ears/models.ts'
import type { Phrasebook } from '../../src/core/ears/phrasebook.ts'
import { FRAME_SAMPLES, SAMPLE_RATE, VOICE_SAMPLES } from '../../src/core/ears/sound.ts'
import { seeded } from '../helpers/seeded.ts'
import type { Condition } from './conditions.ts'
import { quietRoom } from './ear-models.ts'
import type { Labelled } from './labelled.ts'
import { mixedAt, speechPower } from './mix.ts'

export interface Spoken {
  readonly label: string
  /** Samples of the stream: where the clip begins, and where the sound of it is over. */
  readonly start: number
  readonly end: number
}

export interface Heard {
  readonly words: string
  readonly kind: Finding['kind']
  /** Samples of the stream. */
  readonly start: number
  readonly end: number
  /** Milliseconds of stream and of computing until the finding was there, since the stream began. */
  readonly toldMs: number
}

const COMMON_RMS = 0.05
const LEAD_SECONDS = 4
const SHORTEST_GAP_SECONDS = 1.2
const ENDS_BELOW = 0.03

/** All clips of one speaker in one stream, each as loud as the others, with pauses between. */
export function streamOf(
  clips: readonly Labelled[],
  { noise, snr }: Condition,
  seed: number
): { readonly samples: Float32Array; readonly spoken: readonly Spoken[] } {
  const chance = seeded(seed)
  let length = LEAD_SECONDS * SAMPLE_RATE
  const placed = clips.map((clip) => {
    const start = length
    length += clip.samples.length + Math.round((SHORTEST_GAP_SECONDS + chance()) * SAMPLE_RATE)
    return { clip, start }
  })
  const speech = quietRoom(length, seed)
  const spoken = placed.map(({ clip, start }): Spoken => {
    const gain = COMMON_RMS / Math.sqrt(speechPower(clip.samples))
    clip.samples.forEach((value, at) => {
      speech[start + at] = (speech[start + at] ?? 0) + gain * value
    })
    return { label: clip.label, start, end: start + soundEnd(clip.samples) }
  })
  const speaker = clips[0]?.speaker ?? ''
  const samples = noise && snr !== null ? mixedAt(speech, COMMON_RMS ** 2, noise.under(speaker), snr) : speech
  return { samples, spoken }
}

function soundEnd(samples: Float32Array): number {
  const least = ENDS_BELOW * samples.reduce((most, value) => Math.max(most, Math.abs(value)), 0)
  return samples.findLastIndex((value) => Math.abs(value) > least) + 1
}

/** `validAt` gives what is valid from a place in the stream on. */
export async function listenThrough(
  samples: Float32Array,
  validAt: (sample: number) => Phrasebook,
  models: EarModels
): Promise<readonly Heard[]> {
  models.forgetVoice()
  const ears = listener(models)
  const heard: Heard[] = []
  for (let at = 0; at < samples.length; at += VOICE_SAMPLES) {
    ears.listenFor(validAt(at))
    const began = performance.now()
    const findings = await ears.push(samples.subarray(at, at + VOICE_SAMPLES))
    const toldMs = ((at + VOICE_SAMPLES) / SAMPLE_RATE) * 1000 + performance.now() - began
    for (const { kind, segment, candidates } of findings) {
      const words = candidates[0]?.words ?? ''
      heard.push({ words, kind, start: segment.start * FRAME_SAMPLES, end: segment.end * FRAME_SAMPLES, toldMs })
    }
  }
  return heard
}
