/** Spanish texts of the screen that gathers. */
import type { SoundCheckState } from '../../app/sound-check.ts'
import type { Part } from '../../core/procedure/procedure.ts'
import { count } from '../count.ts'
import type { GatherWords } from './words.en.ts'

const CARE: Readonly<Record<Part['care'], string>> = {
  grease: 'Engrasar',
  dry: 'Dejar sin grasa',
  clean: 'Ni lo uno ni lo otro'
}

type DeafReason = Extract<SoundCheckState, { readonly kind: 'deaf' }>['reason']
const DEAF: Readonly<Record<DeafReason, string>> = {
  unsupported: 'este navegador no puede escuchar',
  denied: 'esta página no puede usar el micrófono',
  'no-engine': 'aquí nada convierte la voz en palabras',
  'no-microphone': 'no hay micrófono',
  'not-answering': 'el micrófono no da señal',
  'other-tab': 'otra pestaña tiene el micrófono',
  'language-missing': 'el idioma no está instalado'
}

function checked(state: SoundCheckState): string {
  switch (state.kind) {
    case 'not-begun':
      return 'Habla, escucha y dice lo que oyó.'
    case 'speaking':
      return 'Escuche.'
    case 'listening':
      return 'Cuente hasta tres.'
    case 'heard':
      return `Se oyó: ${state.words}`
    case 'nothing-heard':
      return 'No se oyó nada. Acérquese o revise el micrófono. El toque y el pedal funcionan sin él.'
    case 'mute':
      return 'Aquí no puede hablar. Todo lo que dice está en la pantalla, con un tono.'
    case 'deaf':
      return `No puede oír: ${DEAF[state.reason]}. El toque y el pedal funcionan sin eso.`
  }
}

const minutes = (ms: number) => count(Math.max(1, Math.round(ms / 60_000)), 'minuto', 'minutos')
const days = (value: number) => count(value, 'día', 'días')
const runs = (value: number) => count(value, 'trabajo', 'trabajos')

export const gatherWordsEs: GatherWords = {
  title: 'Reúna',
  supplies: 'Materiales',
  solutions: 'Soluciones',
  parts: 'Piezas',
  tools: 'Útiles compartidos',
  wornTitle: 'Piezas gastadas',
  wornNow: (place) => `${place}: cámbiela en este trabajo.`,
  wornSoon: (place) => `${place}: pronto estará gastada. Tenga una nueva a mano.`,
  wornAge: (age, times, isKnown) =>
    isKnown
      ? `Nueva hace ${days(age)}, ${runs(times)} desde entonces.`
      : `${runs(times)} en ${days(age)} de registro; es más vieja que eso.`,
  wornSay:
    'Cuando la nueva esté puesta, diga a Sidecall "pieza cambiada" o toque Pieza cambiada entre las otras cosas.',
  none: 'Nada en la lista.',
  perSide: 'por cada lado',
  care: (care) => CARE[care],
  pieces: (value) => `${value} ×`,
  who: '¿Quién lo hace?',
  whoMissing: 'Escriba primero su nombre: el registro dice quién lo hizo.',
  telling: '¿Cuánto se debe decir?',
  tellingBrief: 'Lo principal',
  tellingFull: 'Todo',
  soundCheck: { begin: 'Prueba de sonido', state: checked },
  start: 'Empezar',
  voiceWhole: 'La voz completa está en este aparato.',
  voicePart: (have, total) =>
    `La voz viene en camino: ${have} de ${total} partes. Puede empezar: lo que falta lo dice el aparato mismo.`,
  plan: 'El plan',
  planning: 'Se calcula el orden.',
  planFault: 'No se puede planear un orden: llame al supervisor.',
  takes: (ms) => `Unos ${minutes(ms)} para todo.`,
  saves: (ms) => `${count(Math.round(ms / 60_000), 'minuto', 'minutos')} menos que un lado después del otro.`,
  savesNothing: 'Un lado después del otro tarda lo mismo.',
  spread: (likely, sure) =>
    `Cuatro de cada cinco veces en ${Math.ceil(likely / 60_000)}, casi seguro en ${Math.ceil(sure / 60_000)}.`,
  estimated: 'Calculado con los tiempos que escribió el autor.',
  learned: (times) => `Aprendido de ${count(times, 'trabajo anterior', 'trabajos anteriores')}.`,
  readyAt: 'Debe estar listo a las',
  startBy: (time) => `Empiece a más tardar: ${time}.`,
  tooLate: (ms) => `Ya es tarde por ${count(Math.ceil(ms / 60_000), 'minuto', 'minutos')}. Avise a quien abre.`
}
