/** Spanish texts of the panels that open over the call. */
import type { GuardFault } from '../../app/guards.ts'
import type { ReadingKind } from '../../core/procedure/procedure.ts'
import { count } from '../count.ts'
import type { PanelWords } from './panel-words.en.ts'

const MENDS: Readonly<Record<GuardFault, string>> = {
  'ears-off': 'Toque "Escuchar" antes de hablar, o responda con toques, teclas o pedal.',
  'ears-unsupported': 'Use toques, teclas o un pedal, o abra esta página en un navegador que pueda escuchar.',
  'ears-denied':
    'Permita el micrófono para esta página en los ajustes del navegador y toque "Probar el oído otra vez".',
  'ears-no-engine': 'Use toques, teclas o un pedal, o abra esta página en un navegador con reconocimiento de voz.',
  'ears-no-microphone': 'Conecte un micrófono y toque "Probar el oído otra vez".',
  'ears-not-answering': 'Toque "Probar el oído otra vez". Mientras, use toques, teclas o un pedal.',
  'ears-other-tab': 'Cierre la otra pestaña de esta página. Entonces esta sigue por sí sola.',
  'ears-language-missing': 'Instale el idioma para el reconocimiento de voz en los ajustes del navegador.',
  'voice-unsupported': 'Lea la pantalla: ahí está todo lo que se diría.',
  'voice-no-voice': 'Instale una voz en los ajustes de este aparato. Mientras, lea la pantalla.',
  'voice-needs-tap': 'Toque la pantalla una vez.',
  'voice-not-answering': 'Revise la bocina y su volumen. Mientras, lea la pantalla.',
  'voice-engine-failed': 'Reinicie este aparato después del trabajo. Mientras, lea la pantalla.',
  'voice-elsewhere': 'Cierre la otra pestaña de esta página. Entonces esta sigue por sí sola.',
  'alarm-needs-tap': 'Toque la pantalla una vez.',
  'alarm-no-sound': 'Revise la bocina y su volumen. Mire la pantalla y tenga al lado un reloj de cocina.',
  'screen-off': 'Toque la pantalla una vez.',
  'screen-unsupported': 'Deje la pantalla siempre encendida en los ajustes de este aparato.',
  'screen-refused': 'Conecte el cargador y quite el modo de ahorro de energía.',
  'screen-hidden': 'Traiga esta página al frente.',
  'server-away':
    'Nada se pierde: este aparato guarda todo y lo envía después. Deje la página abierta cuando vuelva la red.',
  'server-failing':
    'Nada se pierde: este aparato guarda todo y lo envía cuando arreglen el servidor. Diga al supervisor lo que dice el servidor.',
  'server-rejecting': 'Avise al supervisor. Este aparato conserva lo que el servidor no tomó.',
  'clock-unconfirmed':
    'Las esperas siguen con el tiempo que pasó con seguridad. Se ponen al día cuando el servidor confirma la hora.',
  'clock-moved': 'Las esperas no lo siguen: van con el tiempo que pasó con seguridad.',
  'tabs-unnoticed':
    'Tenga esta página abierta en una sola pestaña: dos hablarían, escucharían y darían alarmas a la vez. Se arregla con un navegador más nuevo o abriendo la página por https.'
}

const READINGS: Readonly<Record<ReadingKind, string>> = {
  strength: 'Concentración',
  temperature: 'Temperatura',
  ph: 'pH'
}

const entries = (value: number) => count(value, 'anotación', 'anotaciones')
const wait = (value: number) => `${entries(value)} ${value === 1 ? 'espera' : 'esperan'} en este aparato`

export const panelWordsEs: PanelWords = {
  number: {
    erase: 'Borrar',
    minus: 'Menos',
    point: 'Punto',
    inUnit: (unit) => `En ${unit}`,
    empty: 'Todavía sin número',
    expected: (value) => `Deben ser ${value}.`,
    pieces: 'piezas'
  },

  finished: {
    complete: 'El trabajo está completo',
    ended: 'El trabajo se terminó antes de tiempo',
    duration: 'Duración',
    operators: 'Hecho por',
    readings: 'Lecturas y conteos',
    corrections: 'Corregido',
    newParts: 'Piezas nuevas',
    problems: 'Problemas',
    refused: 'Intentos rechazados',
    takenBack: 'Cancelado',
    lost: 'Anotaciones perdidas en un aparato',
    none: 'ninguno',
    good: 'dentro de los límites',
    bad: 'fuera de límites',
    reading: (kind) => READINGS[kind],
    count: 'Conteo',
    sent: 'Todo llegó al servidor.',
    sending: 'Se está enviando al servidor.',
    unsent: (value) => `El servidor no contesta. ${wait(value)}: deje la página abierta cuando vuelva la red.`,
    failing: (why, value) =>
      `El servidor no guarda nada por ahora: ${why} ${wait(value)}. Deje la página abierta hasta que arreglen el servidor.`,
    rejecting: (why) => `El servidor rechaza parte del registro: ${why}`,
    back: 'Volver a la lista'
  },

  mend: (fault) => MENDS[fault],
  whoseEars: { browser: '(del navegador)', embedded: '(propio de Sidecall)' },

  ways: {
    title: 'Otras cosas',
    repeat: 'Otra vez',
    why: '¿Por qué?',
    more: 'Dígame más',
    howLong: '¿Cuánto falta?',
    takeBack: 'Volver atrás',
    pause: 'Un momento',
    resume: 'Continuar',
    quiet: 'Silencio',
    newPart: 'Pieza cambiada',
    problem: 'Hay un problema',
    words: 'Escribir palabras',
    crew: 'Quién trabaja',
    transcript: 'Lo que se dijo',
    wipe: 'Limpiar la pantalla',
    keys: 'Teclas',
    guards: 'Oído y voz',
    endEarly: 'Terminar antes'
  },

  wipe: {
    title: 'Limpie ahora',
    why: 'La pantalla no toma toques. Voz, teclas y pedal siguen, y todas las esperas también.',
    left: (seconds) => `El toque vuelve en ${seconds} s.`,
    end: 'Mantenga oprimido para volver a tocar ahora'
  },

  touch: {
    palm: 'Eso fue la palma: sin efecto.',
    several: 'Dos toques a la vez: ninguno vale.',
    wiping: 'Eso fue un trapo: sin efecto.',
    many: 'Demasiados toques a la vez. Seque la pantalla: Otro, después Limpiar la pantalla.'
  },

  undo: (lane, what) => `Volver atrás: ${lane}. ${what}`,

  problem: {
    title: 'Hay un problema',
    where: '¿Dónde es?',
    what: '¿Qué es?',
    report: 'Detener este lugar'
  },

  correction: { title: 'Corregir', what: '¿Qué se hizo?', record: 'Anotar lo que se hizo' },

  typed: { title: 'Escriba lo que diría', field: 'Sus palabras', send: 'Decirlo' },

  handOver: { title: 'Entregar el turno', to: '¿Quién sigue?', record: 'Entregar' },

  crew: {
    title: 'Quién trabaja',
    thisDevice: 'este aparato',
    gone: (name) => `Mantenga oprimido: ${name} se fue`,
    how: 'Para trabajar entre dos, abra este trabajo en otro aparato, toque "Seguir" y únase.',
    elsewhere: 'Este trabajo empezó en otro aparato. Trabaje junto con él o siga en su lugar.',
    name: 'Su nombre',
    join: 'Trabajar junto',
    carryOn: 'Seguir en su lugar'
  },

  endEarly: {
    title: 'Terminar este trabajo antes',
    warning: 'El registro dirá que el trabajo no se completó. Después ya no se puede retomar.',
    reason: '¿Por qué termina?',
    hold: 'Mantenga oprimido para terminarlo'
  },

  transcript: {
    title: 'Lo que se dijo y se oyó',
    none: 'Nada todavía.',
    sidecall: 'Sidecall',
    operator: 'Usted',
    notUnderstood: '(no se entendió)'
  },

  keys: {
    title: 'Teclas y pedales',
    rows: [
      ['Espacio, Intro, Av Pág, →, ↓', 'Listo. Si se mantiene: la frase completa, una precaución entendida, o sí.'],
      ['Re Pág, ←, ↑', 'Otra vez. Si se mantiene ante una pregunta: no.'],
      ['Retroceso', 'Volver atrás'],
      ['Y, N', 'Sí, no'],
      ['0 a 9, punto, Intro', 'Un número que se pide; después, anotarlo'],
      ['U', 'La otra escala, °C o °F, de una temperatura que se pide'],
      ['P', 'Un momento, continuar'],
      ['H', 'Cuánto falta'],
      ['E', 'A qué hora termina todo'],
      ['X', 'Se puso una pieza nueva'],
      ['W, M, I', 'Por qué, dígame más, por qué este lado'],
      ['Q', 'Silencio'],
      ['Tab, después Intro', 'Todo lo demás de la pantalla'],
      ['?', 'Esta lista']
    ],
    lane: (lane) => `Ir a: ${lane}`,
    alarm: 'Cualquier tecla contesta una alarma.'
  }
}
