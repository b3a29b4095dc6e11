/** Clips whose code comes after the first screen: nothing is said before a procedure was chosen. */
import type { ClipsState, SpeechClips } from '../ports/speech-clips.ts'
import type { ClipSource } from './speech-clips-http.ts'
import { toldState } from './told-state.ts'

export function speechClipsLater(load: () => Promise<SpeechClips & ClipSource>): SpeechClips & ClipSource {
  const state = toldState<ClipsState>({ kind: 'none' })
  let loading: Promise<void> | null = null
  let loaded: (SpeechClips & ClipSource) | null = null
  let wanted: string | null = null

  async function fetchCode(): Promise<void> {
    try {
      loaded = await load()
    } catch {
      // No network just now: the next procedure chosen tries again.
      loading = null
      return
    }
    loaded.onState(state.set)
    if (wanted !== null) loaded.want(wanted)
  }

  return {
    want(hash) {
      wanted = hash
      if (loaded) loaded.want(hash)
      else loading ??= fetchCode()
    },
    rest() {
      wanted = null
      loaded?.rest()
    },
    pronunciations: () => loaded?.pronunciations() ?? [],
    language: () => loaded?.language() ?? null,
    saying: (text) => loaded?.saying(text) ?? null,
    state: state.now,
    onState: state.onChange
  }
}
