/** Spanish words of the practice screen. */
import type { PracticeNotice } from '../../app/practice-room.ts'
import { count } from '../count.ts'
import type { DeafPractice, FaultyTake, SharingNotice } from './notices.ts'
import type { PracticeWords } from './words.en.ts'

const FAULTS: Readonly<Record<FaultyTake, string>> = {
  clipped: 'Demasiado fuerte para el micrófono. Aléjese un poco o hable más bajo.',
  'too-quiet': 'Muy bajo para el ruido que hay aquí. Acérquese o hable más fuerte.',
  'too-short': 'Fue muy corto. Diga la frase completa.',
  'too-long': 'Fue muy largo. Diga solo esta frase y después calle.'
}
const DEAF: Readonly<Record<DeafPractice, string>> = {
  denied: 'Esta página no puede usar el micrófono. Permítalo en el navegador e intente otra vez.',
  'no-microphone': 'No hay micrófono. Conecte uno e intente otra vez.',
  'not-kept': 'Este aparato no pudo guardarlo. Haga espacio e intente otra vez.',
  'no-models': 'No se pudo cargar el oído. Se trae una sola vez, con la red presente.'
}

const SHARING: Readonly<Record<SharingNotice, string>> = {
  shared: 'El servidor también la tiene. Si se olvida aquí, se olvida allá y en las otras tabletas.',
  'not-shared': '',
  'to-be-shared': 'En camino al servidor. Si ahora no se alcanza, se envía al empezar la próxima limpieza aquí.',
  'to-be-withdrawn':
    'Se está quitando del servidor. Si ahora no se alcanza, se quita al empezar la próxima limpieza aquí.',
  refused: 'El servidor no la aceptó.'
}

function notice(what: PracticeNotice): string {
  switch (what.kind) {
    case 'take':
      return 'Muy bien.'
    case 'fault':
      return FAULTS[what.fault]
    case 'sounds-like':
      return `Guardado, pero suena como "${what.other}". Dígalo otra vez, más claro.`
    case 'deaf':
      return DEAF[what.why]
  }
}

export const practiceWordsEs: PracticeWords = {
  title: 'Practique su voz',
  about:
    'Diga cada frase tres veces, como la dice en el trabajo, con las máquinas encendidas. Así Sidecall le oye sin la red. Solo se guarda la forma del sonido, nunca el sonido.',
  whose: (operator) => (operator === '' ? 'Para todos en este aparato' : `Para ${operator}`),
  say: (words) => `Diga: ${words}`,
  level: 'Qué tan fuerte suena',
  takes: (count, wanted) => `${Math.min(count, wanted)} de ${wanted}`,
  start: 'Empezar',
  stop: 'Parar',
  practise: (words) => `Practicar: ${words}`,
  forget: (words) => `Olvidar: ${words}`,
  forgetShort: 'Olvidar',
  forgetAll: 'Olvidar todo de esta voz',
  forgetLearned: (takes) =>
    `Olvidar lo aprendido en el trabajo (${count(takes, 'toma', 'tomas')}), conservar lo practicado`,
  sharing: 'Dónde se guarda esta voz',
  shareNot: 'solo en este aparato',
  share: 'también en el servidor, para las otras tabletas del local',
  whereKept: (how) => SHARING[how],
  back: 'Atrás',
  notice
}
