/** The Spanish texts of the screens; sentences of a run are in core/talk. */
import type { GuardFault, GuardName } from '../app/guards.ts'
import type { LaneMood } from '../app/lane-rows.ts'
import { count } from './count.ts'
import type { ScreenWords } from './words.en.ts'

const GUARDS: Readonly<Record<GuardName, string>> = {
  ears: 'Oído',
  voice: 'Voz',
  alarm: 'Sonido de alarma',
  screen: 'Pantalla encendida',
  server: 'Servidor',
  clock: 'Reloj',
  tabs: 'Otras pestañas'
}

const SHORT_GUARDS: Readonly<Record<GuardName, string>> = { ...GUARDS, alarm: 'Alarma', screen: 'Pantalla' }

const FAULTS: Readonly<Record<GuardFault, string>> = {
  'ears-off': 'sin escuchar',
  'ears-unsupported': 'este navegador no tiene',
  'ears-denied': 'el micrófono no está permitido',
  'ears-no-engine': 'este navegador oye, pero no entiende',
  'ears-no-microphone': 'no se encuentra micrófono',
  'ears-not-answering': 'no responde',
  'ears-other-tab': 'lo tiene otra pestaña',
  'ears-language-missing': 'el idioma no está instalado',
  'voice-unsupported': 'este navegador no puede hablar',
  'voice-no-voice': 'no hay una voz instalada',
  'voice-needs-tap': 'bloqueada hasta que toque',
  'voice-not-answering': 'no responde',
  'voice-engine-failed': 'se descompuso',
  'voice-elsewhere': 'habla otra pestaña',
  'alarm-needs-tap': 'bloqueado hasta que toque',
  'alarm-no-sound': 'no sale sonido',
  'screen-off': 'puede apagarse',
  'screen-unsupported': 'puede apagarse',
  'screen-refused': 'puede apagarse',
  'screen-hidden': 'esta página está oculta',
  'server-away': 'no contesta',
  'server-failing': 'por ahora no guarda nada',
  'server-rejecting': 'rechaza parte del registro',
  'clock-unconfirmed': 'se adelantó',
  'clock-moved': 'lo cambiaron',
  'tabs-unnoticed': 'no se notarían'
}

const MOODS: Readonly<Record<LaneMood, string>> = {
  hands: 'Manos aquí',
  alarm: 'Terminó la espera',
  waiting: 'En espera',
  ready: 'Disponible',
  stopped: 'Detenido',
  late: 'Demasiado tarde',
  'at-barrier': 'Primero los otros',
  'tool-in-use': 'Útil ocupado',
  finished: 'Terminado'
}

const entries = (value: number) => count(value, 'anotación', 'anotaciones')

export const screenWordsEs: ScreenWords = {
  name: 'Sidecall',
  starting: 'Sidecall está empezando.',
  labelFirst: 'Primero valen la etiqueta del producto, el manual del fabricante y las normas locales.',
  back: 'Atrás',
  close: 'Cerrar',
  cancel: 'Cancelar',
  language: 'Idioma / Language',

  failure: {
    full: 'La memoria de este aparato está llena',
    unavailable: 'La memoria de este aparato no funciona',
    'newer-version': 'Se abrió una versión más nueva de esta página: recárguela',
    corrupt: 'Parte de lo guardado en este aparato está dañado',
    storage: (what) => `${what}. No se guardó.`,
    procedureUnavailable: 'Este procedimiento no está en este aparato y el servidor no contesta.',
    runUnreadable:
      'El comienzo de este trabajo está dañado: nadie puede seguir con él. Se conserva como está; avise al supervisor.',
    notKept: 'NO SE GUARDÓ. Dígalo o tóquelo otra vez.'
  },

  run: {
    lanes: 'Lugares',
    mood: (mood) => MOODS[mood],
    then: (step) => `Después: ${step}`,
    next: (step) => `Sigue: ${step}`,
    before: (step) => `Antes se terminó aquí: ${step}`,
    laneOver: 'Aquí no queda nada.',
    atMost: 'siga antes de',
    ready: 'Termina',
    handsFree: 'Tiene las dos manos libres',
    firstFree: (lane) => `${lane} le necesita en`,
    heard: (words) => `Se oyó: ${words}`,
    listen: 'Escuchar'
  },

  act: {
    done: 'Listo',
    yes: 'Sí',
    no: 'No',
    understood: 'Lo he entendido',
    hold: (phrase) => `Mantenga oprimido: ${phrase}`,
    holdHint: 'Manténgalo oprimido hasta que se llene.',
    enterNumber: 'Poner el número',
    record: 'Anotar',
    carryOn: 'Continuar',
    again: 'Otra vez',
    other: 'Otro …',
    somethingElse: 'Otra cosa',
    putRight: 'Corregir'
  },

  guards: {
    title: 'Lo que cuida este trabajo',
    name: (name) => GUARDS[name],
    short: (name) => SHORT_GUARDS[name],
    good: 'funciona',
    resting: 'descansa un momento',
    waiting: 'espera "hola sidecall"',
    dead: 'no funciona',
    why: (fault) => FAULTS[fault],
    unsent: (value) => (value === 0 ? '' : `${entries(value)} sin enviar todavía.`),
    moved: (length) => `Por ${length}.`,
    retryEars: 'Probar el oído otra vez',
    allWell: 'Todo funciona'
  },

  alarm: { ago: 'hace' },
  needsTap: {
    title: 'Toque para seguir',
    why: 'La página se cargó de nuevo. Sonido, oído y pantalla empiezan cuando usted toca. No se perdió ninguna espera.'
  }
}
