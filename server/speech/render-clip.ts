/** One text as spoken becomes one clip: said, shaped for noise, packed. */
import { packWav } from '../../src/core/talk/clips/ima-adpcm.ts'
import { shaped } from '../../src/core/talk/clips/shape.ts'
import { openEngine, type Engine } from './engine.ts'
import { hostVoice } from './host-voice.ts'

export interface Clip {
  /** A WAV file of IMA ADPCM; the page unpacks it by itself. */
  readonly bytes: Uint8Array
  readonly ms: number
}

/** Null when the engine cannot say that. */
export type Renderer = (spoken: string) => Promise<Clip | null>

/** `program`: a voice of this machine; null for the embedded one. */
export async function openRenderer(program: string | null = null): Promise<Renderer> {
  const engine: Engine = program === null ? await openEngine() : hostVoice(program)
  return async (spoken) => {
    const samples = await engine(spoken)
    if (samples === null) return null
    const loud = shaped(samples)
    return { bytes: packWav(loud), ms: Math.round((loud.pcm.length / loud.rate) * 1000) }
  }
}
