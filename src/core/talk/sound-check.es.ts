import type { SoundCheckWords } from './sound-check.en.ts'

export const soundCheckEs: SoundCheckWords = {
  ask: 'Cuente hasta tres, por favor.',
  heard: (words) => `Oí: ${words}.`,
  nothing: 'No oí nada.'
}
