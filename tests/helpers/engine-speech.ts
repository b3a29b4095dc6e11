/** A shop with nothing rendered yet: the page then says everything with the engine itself, in the app's own voice. */
import type { Speech } from '../../server/speech/speech.ts'

export function engineSpeech(): Speech {
  return {
    manifest: async () => ({ language: 'en', total: 0, clips: [], pronunciations: [] }),
    clipsFor: async () => ({ language: 'en', total: 0, clips: [], pronunciations: [] }),
    clip: async () => null,
    renderAll: async () => {},
    end() {}
  }
}
