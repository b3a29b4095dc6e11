/** What is spoken in the evaluation sets: five valid at once. */
export const PHRASES = {
  en: {
    two: ['all done', 'say again', 'go back', 'hold on', 'carry on'],
    one: ['done', 'next', 'repeat', 'help', 'pause']
  },
  es: { two: ['todo listo', 'otra vez', 'paso siguiente', 'volver atrás', 'cuánto falta'] }
} as const
