import type { VoicePractice } from '../../src/ports/voice-practice.ts'

export interface FakeVoicePractice extends VoicePractice {
  /** What was heard, each with the types of the events that came of it. */
  readonly came: readonly (readonly [words: string, ...types: string[]])[]
}

/** Practice of which nobody has said a word. */
export function fakeVoicePractice(): FakeVoicePractice {
  const came: [string, ...string[]][] = []
  return {
    use: async () => {},
    takes: async () => new Map(),
    practise: () => () => {},
    forget: async () => {},
    cameOf: async (words, events, known) => void came.push([words, ...events.slice(known).map(({ type }) => type)]),
    learned: async () => 0,
    forgetLearned: async () => {},
    sharing: async () => 'not-shared',
    share: async () => 'not-shared',
    came
  }
}
