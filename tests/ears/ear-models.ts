/** The page's models, run in Node by the page's own code. */
import { readFileSync } from 'node:fs'
import type { EarModels } from '../../src/core/ears/models.ts'
import { unpacked } from '../../src/core/ears/packed-embeddings.ts'
import { practice } from '../../src/core/ears/practice.ts'
import type { OtherSpeech, Phrasebook } from '../../src/core/ears/phrasebook.ts'
import { SAMPLE_RATE, VOICE_SAMPLES } from '../../src/core/ears/sound.ts'
import { unpackedPhrases } from '../../src/core/ears/starting-phrases.ts'
import { framesIn, type Utterance } from '../../src/core/ears/utterance.ts'
import type { EarFiles } from '../../src/devices/ears-embedded/desk-messages.ts'
import { onnxModels } from '../../src/devices/ears-embedded/models-onnx.ts'
import { readModelFiles } from '../../vite.ear-models.ts'
import { normal, seeded } from '../helpers/seeded.ts'
import { placed } from './room-tone.ts'

const MADE = new URL('../../src/devices/ears-embedded/', import.meta.url)
export const OTHER_SPEECH_FILE = new URL('other-speech.bin', MADE)
export const STARTING_FILE = new URL('starting-phrases.bin', MADE)
/** What practice hears before and behind a take. */
const AROUND = SAMPLE_RATE

/** All that the page would fetch. */
export function readEarFiles(): EarFiles {
  return {
    ...readModelFiles(),
    otherSpeech: readFileSync(OTHER_SPEECH_FILE),
    startingPhrases: readFileSync(STARTING_FILE)
  }
}

/** Each has a voice stream of its own, so only one stream may run at a time on one of these. */
export async function earModels(): Promise<EarModels> {
  return await onnxModels(readModelFiles())
}

export function otherSpeech(): OtherSpeech {
  return unpacked(readFileSync(OTHER_SPEECH_FILE))
}

export function startingPhrases(): Phrasebook {
  return unpackedPhrases(readFileSync(STARTING_FILE))
}

/** A very quiet room: no microphone gives zeros. */
export function quietRoom(samples: number, seed: number): Float32Array {
  const chance = seeded(seed)
  return Float32Array.from({ length: samples }, () => 0.0001 * normal(chance))
}

/** The longest utterance of a recording, as practice would take it; null when nothing is heard in it. */
export async function takeOf(samples: Float32Array, models: EarModels): Promise<Utterance | null> {
  const padded = quietRoom(samples.length + 2 * AROUND, samples.length)
  placed(padded, samples, { start: AROUND, from: 0, to: padded.length, gain: 1 }, samples.length)
  models.forgetVoice()
  const ears = practice(models)
  let longest: Utterance | null = null
  for (let at = 0; at < padded.length; at += VOICE_SAMPLES) {
    const heard = await ears.push(padded.subarray(at, at + VOICE_SAMPLES))
    if (heard && (!longest || framesIn(heard.utterance) > framesIn(longest))) longest = heard.utterance
  }
  return longest
}
