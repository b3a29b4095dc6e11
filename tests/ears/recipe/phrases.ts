import { spokenPhrases } from '../../../src/core/talk/spoken-phrases.ts'
import { vocabularyEn } from '../../../src/core/talk/vocabulary.en.ts'
import { vocabularyEs } from '../../../src/core/talk/vocabulary.es.ts'

/** What is spoken in the evaluation sets: five valid at once. */
export const PHRASES = {
  en: {
    two: ['all done', 'say again', 'go back', 'hold on', 'carry on'],
    one: ['done', 'next', 'repeat', 'help', 'pause']
  },
  es: { two: ['todo listo', 'otra vez', 'paso siguiente', 'volver atrás', 'cuánto falta'] }
} as const

/** What the starting phrases are made of. */
export const STARTING = {
  en: spokenPhrases(vocabularyEn),
  es: spokenPhrases(vocabularyEs)
}
