import type { ClipsState, SpeechClips } from '../../src/ports/speech-clips.ts'
import { toldState } from '../../src/devices/told-state.ts'

export interface FakeClips extends SpeechClips {
  /** Procedure versions asked for, null for a rest. */
  readonly wanted: readonly (string | null)[]
  become(state: ClipsState): void
}

/** No clips: everything is left to the device's own voice. */
export function fakeClips(): FakeClips {
  const state = toldState<ClipsState>({ kind: 'none' })
  const wanted: (string | null)[] = []
  return {
    want: (hash) => void wanted.push(hash),
    rest: () => void wanted.push(null),
    prepare: async () => {},
    pronunciations: () => [],
    state: state.now,
    onState: state.onChange,
    wanted,
    become: state.set
  }
}
