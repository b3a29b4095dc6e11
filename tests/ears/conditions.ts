/** What is under the speech: silence, or a noise at a signal-to-noise ratio. */
import { readdir } from 'node:fs/promises'
import { extname, join } from 'node:path'
import { SAMPLE_RATE } from '../../src/core/ears/sound.ts'
import { seeded } from '../helpers/seeded.ts'
import { kitchenNoise, NOISES } from './kitchen-noise.ts'
import { OTHER, type Labelled } from './labelled.ts'
import { meanSquare } from './mix.ts'
import { readAudio } from './read-audio.ts'

export interface Noise {
  readonly name: string
  /** For a stream of this speaker: nobody is among their own babble. */
  under(speaker: string): Float32Array
  /** To listen to with nobody speaking; as long as the recording is, or `seconds` of one that is made. */
  alone(seconds: number): Float32Array
}

export interface Condition {
  readonly noise: Noise | null
  /** dB; null without noise. */
  readonly snr: number | null
}

const SECONDS = 40
const TALKERS = 6

/** Each sound file of the folder is a noise by the name of the file; without a folder there are four of our own. */
export async function noisesFrom(
  folder: string | undefined,
  clips: readonly Labelled[],
  seed: number
): Promise<readonly Noise[]> {
  if (folder === undefined) {
    const made = NOISES.map((kind): Noise => {
      const samples = kitchenNoise(kind, SECONDS, seed)
      return { name: kind, under: () => samples, alone: (seconds) => kitchenNoise(kind, seconds, seed + 1) }
    })
    const known = new Map<string, Float32Array>()
    const under = (speaker: string) => {
      const samples = known.get(speaker) ?? babble(clips, speaker, SECONDS, seed)
      known.set(speaker, samples)
      return samples
    }
    return [...made, { name: 'babble', under, alone: (seconds) => babble(clips, '', seconds, seed + 1) }]
  }
  const names = await readdir(folder, { recursive: true }).catch(() => {
    throw new Error(`There is no folder ${folder}.`)
  })
  const files = names.filter((name) => /\.(wav|flac)$/i.test(name)).sort()
  if (files.length === 0) throw new Error(`There is no WAV or FLAC file in ${folder}.`)
  const noises: Noise[] = []
  for (const file of files) {
    const samples = await readAudio(join(folder, file))
    if (meanSquare(samples) === 0) throw new Error(`${join(folder, file)} is silent, so it cannot be mixed in.`)
    noises.push({ name: file.slice(0, -extname(file).length), under: () => samples, alone: () => samples })
  }
  return noises
}

export function conditionsOf(noises: readonly Noise[], ratios: readonly number[]): readonly Condition[] {
  return [{ noise: null, snr: null }, ...noises.flatMap((noise) => ratios.map((snr) => ({ noise, snr })))]
}

/**
 * Six streams of talk at once: long recordings where there are some, else the clips of everybody else, if anybody. These
 * are played backwards: a colleague who says a command is no noise, and to obey would not be wrong.
 */
function babble(clips: readonly Labelled[], speaker: string, seconds: number, seed: number): Float32Array {
  const chance = seeded(seed)
  const long = clips.filter(({ label }) => label === OTHER)
  const others = clips.filter((clip) => clip.speaker !== speaker)
  const short = others.length > 0 ? others : clips
  const talk = long.length > 0 ? long : short.map((clip) => ({ ...clip, samples: clip.samples.toReversed() }))
  const out = new Float32Array(seconds * SAMPLE_RATE)
  for (let talker = 0; talker < TALKERS; talker++) {
    for (let at = 0; at < out.length;) {
      const { samples } = talk[Math.floor(chance() * talk.length)] ?? { samples: new Float32Array(SAMPLE_RATE) }
      const from = Math.floor(chance() * Math.max(1, samples.length - out.length))
      const piece = samples.subarray(from, from + out.length - at)
      const gain = 0.05 / Math.sqrt(Math.max(1e-9, meanSquare(piece)))
      piece.forEach((value, k) => {
        out[at + k] = (out[at + k] ?? 0) + gain * value
      })
      at += Math.max(1, piece.length)
    }
  }
  return out
}
