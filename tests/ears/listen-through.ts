/** Plays one stream to the ears and compares what they find with what was said where. */
import { listener, type Finding } from '../../src/core/ears/listener.ts'
import type { EarModels } from '../../src/core/ears/models.ts'
import { FRAME_SAMPLES, SAMPLE_RATE, VOICE_SAMPLES } from '../../src/core/ears/sound.ts'
import { seeded } from '../helpers/seeded.ts'
import type { ListeningFor } from './behind-word.ts'
import type { Condition } from './conditions.ts'
import { quietRoom } from './ear-models.ts'
import type { Labelled } from './labelled.ts'
import { meanSquare, mixedAt, speechPower } from './mix.ts'
import { placed } from './room-tone.ts'

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
  /** Milliseconds of stream and of processor time until the finding was there, since the stream began. */
  readonly toldMs: number
}

export interface Listened {
  readonly heard: readonly Heard[]
  /** Milliseconds of processor time that each 80 ms of the stream took. */
  readonly hopsMs: readonly number[]
}

const COMMON_RMS = 0.05
const LEAD_SECONDS = 4
const SHORTEST_GAP_SECONDS = 1.2
/** The sound of a clip is over where it stays this far below its loud parts, or little above its own room, dB. */
const ENDS_BELOW_DB = 30
const ABOVE_ROOM_DB = 6
const BLOCK = SAMPLE_RATE / 100
const HOP_SAMPLES = 0.08 * SAMPLE_RATE

/** All clips of one speaker in one stream, each as loud as the others, with pauses in the clips' own room between. */
export function streamOf(
  clips: readonly Labelled[],
  { noise, snr }: Condition,
  seed: number
): { readonly samples: Float32Array; readonly spoken: readonly Spoken[] } {
  const chance = seeded(seed)
  let length = LEAD_SECONDS * SAMPLE_RATE
  let from = 0
  const places = clips.map((clip) => {
    const start = length
    const gap = Math.round((SHORTEST_GAP_SECONDS + chance()) * SAMPLE_RATE)
    length += clip.samples.length + gap
    const to = length - Math.round(gap / 2)
    const place = { clip, start, from, to }
    from = to
    return place
  })
  const speech = quietRoom(length, seed)
  const spoken = places.map(({ clip, ...place }, at): Spoken => {
    const gain = COMMON_RMS / Math.sqrt(speechPower(clip.samples))
    placed(speech, clip.samples, { ...place, gain }, seed + at)
    return { label: clip.label, start: place.start, end: place.start + soundEnd(clip.samples) }
  })
  const speaker = clips[0]?.speaker ?? ''
  const samples = noise && snr !== null ? mixedAt(speech, COMMON_RMS ** 2, noise.under(speaker), snr) : speech
  return { samples, spoken }
}

function soundEnd(samples: Float32Array): number {
  const powers: number[] = []
  for (let at = 0; at < samples.length; at += BLOCK) powers.push(meanSquare(samples.subarray(at, at + BLOCK)))
  const room = powers.toSorted((a, b) => a - b)[Math.floor(powers.length / 20)] ?? 0
  const least = Math.max(
    speechPower(samples) * 10 ** (-ENDS_BELOW_DB / 10),
    Math.min(room * 10 ** (ABOVE_ROOM_DB / 10), speechPower(samples) / 10)
  )
  return Math.min(samples.length, (powers.findLastIndex((power) => power > least) + 1) * BLOCK)
}

export async function listenThrough(
  samples: Float32Array,
  listeningFor: ListeningFor,
  models: EarModels
): Promise<Listened> {
  models.forgetVoice()
  const ears = listener(models)
  const heard: Heard[] = []
  const hopsMs: number[] = []
  for (let at = 0; at < samples.length; at += VOICE_SAMPLES) {
    const { valid, speaker } = listeningFor(
      at,
      heard.filter(({ kind }) => kind === 'sure').map(({ words }) => words)
    )
    ears.listenFor(valid, speaker)
    const began = process.cpuUsage()
    const findings = await ears.push(samples.subarray(at, at + VOICE_SAMPLES))
    const used = process.cpuUsage(began)
    const tookMs = (used.user + used.system) / 1000
    const hop = Math.floor(at / HOP_SAMPLES)
    hopsMs[hop] = (hopsMs[hop] ?? 0) + tookMs
    const toldMs = ((at + VOICE_SAMPLES) / SAMPLE_RATE) * 1000 + tookMs
    for (const { kind, segment, candidates } of findings) {
      const words = candidates[0]?.words ?? ''
      heard.push({ words, kind, start: segment.start * FRAME_SAMPLES, end: segment.end * FRAME_SAMPLES, toldMs })
    }
  }
  return { heard, hopsMs }
}
