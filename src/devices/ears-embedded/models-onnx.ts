/** Runs the two models in ONNX Runtime for WebAssembly, one thread: a page without isolation has no shared memory. */
import { env, InferenceSession, Tensor } from 'onnxruntime-web/wasm'
import type { EarModels } from '../../core/ears/models.ts'
import { BANDS, EMBEDDING_SIZE, SAMPLE_RATE, VOICE_SAMPLES } from '../../core/ears/sound.ts'

export interface ModelBytes {
  readonly embedding: Uint8Array
  readonly voice: Uint8Array
  readonly runtime: Uint8Array
}

/** The voice model also looks at the end of what came before. */
const VOICE_CONTEXT = 64
const VOICE_STATE = [2, 1, 128] as const
const VOICE_STATE_SIZE = 256

/** @throws what the runtime throws when it cannot start: no WebAssembly SIMD, no memory. */
export async function onnxModels(bytes: ModelBytes): Promise<EarModels> {
  env.wasm.numThreads = 1
  env.wasm.wasmBinary = bytes.runtime
  const options = { executionProviders: ['wasm'], logSeverityLevel: 3 } as const
  const embedding = await InferenceSession.create(bytes.embedding, options)
  const voice = await InferenceSession.create(bytes.voice, options)
  const rate = new Tensor('int64', BigInt64Array.from([BigInt(SAMPLE_RATE)]))
  const input = new Float32Array(VOICE_CONTEXT + VOICE_SAMPLES)
  let state = new Float32Array(VOICE_STATE_SIZE)

  return {
    async voice(samples) {
      input.copyWithin(0, VOICE_SAMPLES)
      input.set(samples, VOICE_CONTEXT)
      const out = await voice.run({
        input: new Tensor('float32', input.slice(), [1, input.length]),
        state: new Tensor('float32', state, VOICE_STATE),
        sr: rate
      })
      state = Float32Array.from(floats(out['stateN']))
      return floats(out['output'])[0] ?? 0
    },
    forgetVoice() {
      state = new Float32Array(VOICE_STATE_SIZE)
      input.fill(0)
    },
    async embed(frames) {
      const out = await embedding.run({
        input_1: new Tensor('float32', frames, [1, frames.length / BANDS, BANDS, 1])
      })
      return byWindow(floats(out['conv2d_19']))
    }
  }
}

function floats(tensor: Tensor | undefined): Float32Array {
  if (!(tensor?.data instanceof Float32Array)) throw new Error('A model gave no numbers.')
  return tensor.data
}

/** From all windows of each value to all values of each window. */
function byWindow(values: Float32Array): Float32Array {
  const windows = values.length / EMBEDDING_SIZE
  return Float32Array.from(
    values,
    (_, at) => values[(at % EMBEDDING_SIZE) * windows + Math.floor(at / EMBEDDING_SIZE)] ?? 0
  )
}
