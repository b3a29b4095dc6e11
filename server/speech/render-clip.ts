/** One text as spoken becomes one clip: said, shaped for noise, packed. */
import { Mp3Encoder } from '@breezystack/lamejs'
import { openEngine, type Samples } from './engine.ts'
import { shaped } from './shape.ts'

export interface Clip {
  /** MP3, one channel: the one packed form that every browser decodes. */
  readonly bytes: Uint8Array
  readonly ms: number
}

/** Null when the engine cannot say that. */
export type Renderer = (spoken: string) => Promise<Clip | null>

const KILOBITS_A_SECOND = 32

export async function openRenderer(): Promise<Renderer> {
  const engine = await openEngine()
  return async (spoken) => {
    const samples = await engine(spoken)
    if (samples === null) return null
    const loud = shaped(samples)
    return { bytes: packed(loud), ms: Math.round((loud.pcm.length / loud.rate) * 1000) }
  }
}

function packed({ rate, pcm }: Samples): Uint8Array {
  const encoder = new Mp3Encoder(1, rate, KILOBITS_A_SECOND)
  const [body, end] = [encoder.encodeBuffer(pcm), encoder.flush()]
  const bytes = new Uint8Array(body.length + end.length)
  bytes.set(body)
  bytes.set(end, body.length)
  return bytes
}
