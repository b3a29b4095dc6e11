/** Clips and the mouth that says them, loaded together. */
import type { Mouth } from '../ports/mouth.ts'
import type { AudioOutput } from './audio-output.ts'
import { clipMouth } from './mouth-clips.ts'
import type { RenderedVoice } from './rendered-voice-later.ts'
import { speechEngine, startEngineWorker } from './speech-engine.ts'
import { httpSpeechClips, type ClipParts } from './speech-clips-http.ts'

export function renderedVoice(parts: ClipParts & { readonly output: AudioOutput; readonly own: Mouth }): RenderedVoice {
  const clips = httpSpeechClips(parts)
  const engine = speechEngine(startEngineWorker, parts.clock)
  return { clips, mouth: clipMouth({ output: parts.output, clips, next: parts.own, engine, clock: parts.clock }) }
}
