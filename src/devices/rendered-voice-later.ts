/** The rendered voice, whose code comes after the first screen: nothing is said before a procedure was chosen. */
import type { Mouth, MouthState } from '../ports/mouth.ts'
import type { ClipsState, SpeechClips } from '../ports/speech-clips.ts'
import { toldState } from './told-state.ts'

export interface RenderedVoice {
  readonly clips: SpeechClips
  /** Says what it has clips for, and leaves the rest to the device's own. */
  readonly mouth: Mouth
}

/** Until it is loaded, and where it cannot be, `own` says everything. */
export function renderedVoiceLater(own: Mouth, load: () => Promise<RenderedVoice>): RenderedVoice {
  const clipsState = toldState<ClipsState>({ kind: 'none' })
  const mouthState = toldState<MouthState>(own.state())
  let loading: Promise<void> | null = null
  let loaded: RenderedVoice | null = null
  let wanted: readonly [hash: string, language: string] | null = null
  const mouth = () => loaded?.mouth ?? own
  const look = () => mouthState.set(mouth().state())
  own.onState(look)

  async function fetchCode(): Promise<void> {
    try {
      loaded = await load()
    } catch {
      // No network just now: the next procedure chosen tries again.
      loading = null
      return
    }
    loaded.clips.onState(clipsState.set)
    loaded.mouth.onState(look)
    look()
    if (wanted !== null) loaded.clips.want(...wanted)
  }

  return {
    clips: {
      want(hash, language) {
        wanted = [hash, language]
        if (loaded) loaded.clips.want(hash, language)
        else loading ??= fetchCode()
      },
      async prepare(spoken, language) {
        await (loading ??= fetchCode())
        await loaded?.clips.prepare(spoken, language)
      },
      rest() {
        wanted = null
        loaded?.clips.rest()
      },
      pronunciations: () => loaded?.clips.pronunciations() ?? [],
      state: clipsState.now,
      onState: clipsState.onChange
    },
    mouth: {
      say: (text, language, pace) => mouth().say(text, language, pace),
      stop: () => mouth().stop(),
      unlock: () => mouth().unlock(),
      state: mouthState.now,
      onState: mouthState.onChange
    }
  }
}
