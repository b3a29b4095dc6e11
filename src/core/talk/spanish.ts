import { hear } from './hear.ts'
import type { Talk } from './languages.ts'
import { soundCheckEs } from './sound-check.es.ts'
import { speakableEs } from './spoken/spanish.ts'
import { vocabularyEs } from './vocabulary.es.ts'
import { wordsEs } from './words.es.ts'

export const SPANISH: Talk = {
  language: 'es',
  words: wordsEs,
  vocabulary: vocabularyEs,
  hear,
  soundCheck: soundCheckEs,
  speakable: speakableEs
}
