import { spokenPhrases } from '../../../src/core/talk/spoken-phrases.ts'
import { vocabularyEn } from '../../../src/core/talk/vocabulary.en.ts'

/** What is spoken in the evaluation sets: five valid at once. */
export const PHRASES = {
  en: {
    two: ['all done', 'say again', 'go back', 'hold on', 'carry on'],
    one: ['done', 'next', 'repeat', 'help', 'pause']
  },
  es: { two: ['todo listo', 'otra vez', 'paso siguiente', 'volver atrás', 'cuánto falta'] }
} as const

/** What the starting phrases are made of. The Spanish ones are those that its vocabulary lists first. */
export const STARTING = {
  en: spokenPhrases(vocabularyEn),
  es: [
    'todo listo',
    'listo',
    'otra vez',
    'repita',
    'sí',
    'no',
    'paso siguiente',
    'siguiente',
    'volver atrás',
    'un momento',
    'sigamos adelante',
    'cuánto falta',
    'dígame por qué',
    'dígame más',
    'qué sigue ahora',
    'necesito ayuda',
    'hay un problema',
    'ya está corregido',
    'más arriba',
    'más abajo',
    'mucho más',
    'mucho menos',
    'eso es',
    'otra escala',
    'hola sidecall'
  ]
} as const satisfies Record<'en' | 'es', readonly string[]>
