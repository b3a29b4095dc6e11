/** Said before a run; loaded with the sound check. The microphone is tried with words that are no command. */
export const soundCheckEn = {
  ask: 'Count to three for me.',
  heard: (words: string) => `I heard: ${words}.`,
  nothing: 'I heard nothing.'
}

export type SoundCheckWords = typeof soundCheckEn
