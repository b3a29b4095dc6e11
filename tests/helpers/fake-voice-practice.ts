import type { VoicePractice } from '../../src/ports/voice-practice.ts'

/** Practice of which nobody has said a word. */
export function fakeVoicePractice(): VoicePractice {
  return {
    use: async () => {},
    takes: async () => new Map(),
    practise: () => () => {},
    forget: async () => {}
  }
}
