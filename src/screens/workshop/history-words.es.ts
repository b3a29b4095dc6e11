/** Spanish texts about the versions of a procedure. */
import type { HistoryWords } from './history-words.en.ts'

export const historyWordsEs: HistoryWords = {
  title: (name) => `Versiones: ${name}`,
  offered: 'se ofrece ahora',
  file: 'de su archivo',
  neverPublished: (when) => `vino con su archivo ${when}`,
  entry: (when, who) => `${when}, ${who === '' ? 'sujeto a otras reglas' : who}`,
  accepted: (rule, reason) => `A pesar de ${rule}: ${reason}`,
  compare: 'Comparar',
  older: 'De',
  newer: 'A',
  goBack: 'Publicar otra vez esta',
  goBackNote: 'Por qué',
  putAway: 'Dejar de ofrecerlo',
  putAwayHint:
    'Ya no aparece en ninguna pantalla de inicio y nada suyo queda pendiente. Sus versiones, sus registros y las limpiezas en marcha se conservan.',
  reallyPutAway: 'Quitarlo de la lista',
  usedBy: 'La usa',
  unused: 'Ninguna limpieza la usó.'
}
