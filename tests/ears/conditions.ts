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
    const made = NOISES.map((kind) => ({ name: kind, under: () => kitchenNoise(kind, SECONDS, seed) }))
    return [...made, { name: 'babble', under: (speaker) => babble(clips, speaker, seed) }]
  }
  const files = (await readdir(folder)).filter((name) => /\.(wav|flac)$/i.test(name)).sort()
  if (files.length === 0) throw new Error(`There is no WAV or FLAC file in ${folder}.`)
  return await Promise.all(
    files.map(async (file) => {
      const samples = await readAudio(join(folder, file))
      return { name: file.slice(0, -extname(file).length), under: () => samples }
    })
  )
}

export function conditionsOf(noises: readonly Noise[], ratios: readonly number[]): readonly Condition[] {
  return [{ noise: null, snr: null }, ...noises.flatMap((noise) => ratios.map((snr) => ({ noise, snr })))]
}

/** Six streams of talk at once: long recordings where there are some, else the clips of everybody else. */
function babble(clips: readonly Labelled[], speaker: string, seed: number): Float32Array {
  const chance = seeded(seed)
  const long = clips.filter(({ label }) => label === OTHER)
  const talk = long.length > 0 ? long : clips.filter((clip) => clip.speaker !== speaker)
  const out = new Float32Array(SECONDS * SAMPLE_RATE)
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
