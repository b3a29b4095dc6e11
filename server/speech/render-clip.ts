/** One text as spoken becomes one clip: said, shaped for noise, packed. */
import { packWav } from '../../src/core/talk/clips/ima-adpcm.ts'
import { shaped } from '../../src/core/talk/clips/shape.ts'
import { openEngine } from './engine.ts'

export interface Clip {
  /** A WAV file of IMA ADPCM; the page unpacks it by itself. */
  readonly bytes: Uint8Array
  readonly ms: number
}

/** Null when the engine cannot say that. */
export type Renderer = (spoken: string) => Promise<Clip | null>

export async function openRenderer(): Promise<Renderer> {
  const engine = await openEngine()
  return async (spoken) => {
    const samples = await engine(spoken)
    if (samples === null) return null
    const loud = shaped(samples)
    return { bytes: packWav(loud), ms: Math.round((loud.pcm.length / loud.rate) * 1000) }
  }
}
