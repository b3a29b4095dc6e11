/** The Spanish sentences of a run, in short polite imperatives (usted). Places are named before a stop or a colon: their names differ in gender. */
import type { ReadingUnit, SignalWord, WaitKind } from '../procedure/procedure.ts'
import type { PlainIntent } from './intent.ts'
import type { Words } from './words.en.ts'

/** "y" and "o" change before their own sound: "mesa e izquierda", "siete u ocho". */
const list: Words['list'] = (items, last) => {
  const end = items.at(-1) ?? ''
  if (items.length < 2) return end
  const word = last === 'and' ? (/^h?i(?!e)/i.test(end) ? 'e' : 'y') : /^h?o/i.test(end) ? 'u' : 'o'
  return `${items.slice(0, -1).join(', ')} ${word} ${end}`
}

const count = (value: number, one: string, many: string) => `${value} ${value === 1 ? one : many}`

const WAITS: Readonly<Record<WaitKind, string>> = {
  agitation: 'Tiempo de mezcla',
  contact: 'Tiempo de contacto',
  soak: 'Tiempo de remojo',
  drain: 'Tiempo de escurrido',
  dry: 'Tiempo de secado',
  freeze: 'Tiempo de congelado',
  settle: 'Tiempo de reposo'
}

/** The signal words of ANSI Z535 as they stand on Spanish signs; from memory. */
const SIGNALS: Readonly<Record<SignalWord, string>> = {
  danger: 'Peligro',
  warning: 'Advertencia',
  caution: 'Precaución',
  notice: 'Aviso'
}

const QUANTITIES: Readonly<Record<ReadingUnit, string>> = {
  '[ppm]': 'concentración',
  Cel: 'temperatura',
  '[degF]': 'temperatura',
  '[pH]': 'pH'
}

const SAY: Readonly<Record<PlainIntent, string>> = {
  done: 'todo listo',
  next: 'paso siguiente',
  repeat: 'otra vez',
  'take-back': 'volver atrás',
  pause: 'un momento',
  resume: 'sigamos adelante',
  'how-long': 'cuánto falta',
  'ready-when': 'a qué hora termina',
  'what-now': 'qué sigue ahora',
  why: 'por qué',
  'why-here': 'por qué aquí',
  more: 'dígame más',
  slower: 'más despacio',
  where: 'en qué íbamos',
  help: 'ayuda',
  yes: 'sí',
  no: 'no',
  quiet: 'silencio',
  problem: 'hay un problema',
  corrected: 'ya está corregido',
  'new-part': 'pieza cambiada'
}

/** Nobody keeps a longer list in mind: common practice, no source. */
const MOST_READ_OUT = 4

export const wordsEs: Words = {
  list,
  wait: (kind) => WAITS[kind],
  signal: (word) => SIGNALS[word],
  phrase: (intent) => SAY[intent],

  duration,
  timeLeft: (ms) => {
    const seconds = Math.ceil(ms / 1000)
    const step = seconds <= 60 ? 1 : seconds <= 600 ? 10 : 60
    return duration(Math.ceil(seconds / step) * step * 1000)
  },

  lane: (lane, text) => `${lane}. ${text}`,
  returning: (lane, last) => `${lane}. Lo último fue: ${sentence(last)}`,
  goingOn: (headline) => `Ahora: ${headline}`,
  caution: (signal, hazard, consequence, avoid) =>
    `${signal}. ${sentence(hazard)} ${sentence(consequence)} ${sentence(avoid)}`,
  cautionHint: 'Responda sí cuando lo haya comprendido.',
  confirmHint: (phrase) => `Cuando sea cierto, dígame: ${phrase}. O mantenga oprimido el botón.`,
  readingHint: (limits, source) => `${limits} Fuente: ${sentence(source)}`,
  limits: (min, max, unit) =>
    min !== null && max !== null
      ? `Permitido: de ${min} a ${max} ${unit}.`
      : min !== null
        ? `Permitido: al menos ${min} ${unit}.`
        : `Permitido: como máximo ${max ?? ''} ${unit}.`,
  heldToHint: (titles) => `También vale: ${sentence(titles)}`,
  metByRule: (lane, title) => `${lane}. Dentro de los límites. El más estricto es de: ${sentence(title)}`,
  quantityIn: (unit) => QUANTITIES[unit],
  notJudged: (lane, title, missing) =>
    `${lane}. Dentro de los límites escritos aquí. Sin evaluar por ${trimEnd(title)}: falta medir ${list(missing, 'and')}.`,
  brokenRule: (measured, title, side, bound) =>
    `${measured}. ${trimEnd(title)} pide ${side === 'below' ? 'al menos' : 'como máximo'} ${bound}.`,
  source: (source) => `Fuente: ${sentence(source)}`,
  countHint: (expected) => `Deben ser ${expected}.`,
  pieces: (name, pieces) => `${name}: ${pieces}`,
  countedOff: (lane, pieces) => `${lane}. Quitadas: ${pieces}.`,
  countedOn: (lane, pieces) => `${lane}. Puestas: ${pieces}.`,
  roundAtLeast: (lane, round, atLeast) => `${lane}. Vuelta ${round}, de ${atLeast} por lo menos.`,
  roundAtMost: (lane, round, atMost) => `${lane}. Vuelta ${round}, de ${atMost} como máximo.`,
  roundHint: (round, atMost) => `Vuelta ${round} de ${atMost} como máximo.`,

  allWaiting: (lane, left) => `Tiene las dos manos libres. ${lane} le necesita en ${left}.`,
  thenThere: (lane, headline) => `Después, ${lane}: ${sentence(headline)}`,
  whileWaiting: 'Aproveche el tiempo para lavarse las manos.',
  standBy: (who, lane) => `${lane} está en manos de ${who}. Usted queda libre hasta entonces.`,
  waitBegins: (lane, wait, length) => `${lane}. ${wait}, empieza: ${length}.`,
  alarm: (lane, wait) => `${lane}. ${wait} terminado.`,
  overdue: (lane, wait, over) => `${lane}. ${wait}, terminado hace ${over}.`,
  alarmHint: 'Responda sí, oprima una tecla o toque la pantalla.',
  paused: 'El trabajo está detenido. Los relojes siguen corriendo.',
  resumed: 'El trabajo continúa.',
  finished: 'El trabajo está completo. Gracias.',
  abandoned: 'El trabajo se terminó antes de tiempo.',
  notStarted: 'El trabajo no ha empezado.',
  problemHint: `Aquí no se hace nada hasta que se arregle. Después dígame: ${SAY.corrected}.`,
  stopped: (lane) => `${lane}. Aquí el trabajo está detenido.`,
  problem: (lane, text) => `${lane}. Problema: ${trimEnd(text)}.`,
  entriesLost: (lane) => `${lane}. Se perdió una parte del registro. Revise qué pasó aquí de verdad.`,
  keptLast: (step) => `Lo último que se sabe de aquí: ${sentence(step)}`,
  keptNothing: 'Nada se sabe de lo que pasó aquí.',
  lookedAfterLoss: 'Se revisó: está como dice el registro.',
  broughtAfterLoss: 'Se llevó a como dice el registro.',
  badAnswer: (lane, what) => `${lane}. Fuera de límites: ${trimEnd(what)}.`,
  badYesNo: (lane, answer) => `${lane}. La respuesta fue ${answer}, y eso no es aceptable.`,
  badCount: (lane, counted, expected) => `${lane}. Se contaron ${counted}. Deben ser ${expected}.`,
  tooManyRounds: (lane) => `${lane}. Esa fue la última vuelta, y todavía falla.`,
  late: (lane, wait) => `${lane}. ${wait}, duró demasiado.`,
  lateDefault: 'Averigüe cómo quedó, y arréglelo.',
  correctionHint: (actions) => `${actions.map(sentence).join(' O: ')} Después dígame: ${SAY.corrected}.`,
  whichCorrection: (actions) =>
    `¿Qué hizo? ${actions.map((action, index) => `${index + 1}. ${sentence(action)}`).join(' ')} Dígame el número.`,
  answeredYesNo: { yes: 'sí', no: 'no' },
  readBack: (value) => `${value}. ¿Es así?`,
  stepFrom: (value) => `Empiezo en ${value}.`,
  stepped: (value) => `${value}.`,
  stepHint: 'Diga: más arriba, más abajo, mucho más o mucho menos. Al final: eso es.',
  askNumberAgain: '¿Cuál es el número?',
  implausible: (value) => `${value} no puede ser. ¿Cuál es el número?`,
  needsUnit: (unit) => `Lo necesito en ${unit}.`,

  takenBack: (lane, what) => `Cancelado. ${lane}: ${sentence(what)}`,
  askTakeBack: (lane, what) => `${lane}. ¿Cancelar esto: ${trimEnd(what)}?`,
  askFirstBack: (lane, headline) => `${lane}. ${sentence(headline)} ¿Es así?`,
  askDone: '¿Este paso está listo?',
  leftAsItWas: 'Se queda como estaba.',
  didYouSay: (phrase) => `¿Dijo "${phrase}"?`,
  which: (options) => `¿Qué quiere decir: ${list(options, 'or')}?`,
  goTo: (lane) => `ir a ${lane.toLowerCase()}`,
  unknown: 'No entendí eso.',
  offerHelp: 'También puede tocar la pantalla o usar el pedal.',
  time: (lane, wait, left) => `${lane}. ${wait}: ${lacking(left)}.`,
  timeOver: (lane, wait) => `${lane}. ${wait} terminado.`,
  notKept: {
    full: 'Eso no se guardó: este aparato está lleno. Haga espacio y dígamelo otra vez.',
    unavailable: 'Eso no se guardó: este aparato no puede guardarlo ahora. Dígamelo otra vez.',
    'newer-version': 'Eso no se guardó: hay un Sidecall más nuevo abierto en otra pestaña. Recargue esta página.',
    corrupt: 'Eso no se guardó: el registro de este aparato está dañado. Llame al supervisor.'
  },
  noWaits: 'Todas las esperas terminaron.',

  readyBy: (clock, left) => `Lo más probable: se termina ${at(clock)}, en ${left}.`,
  readySpread: (usual, sure) => `Con suerte, ${at(usual)}. Casi seguro, ${at(sure)}.`,
  noPlanYet: 'Eso falta calcularlo.',
  noPlan: 'Aquí no puedo planear un orden. Trabaje en cada lugar como muestra la pantalla.',
  whyChosen: (lane) => `Usted pidió ${lane}.`,
  whyLimit: (lane, clock) => `${lane}: hay que retomarlo antes de ${clockNoun(clock)}.`,
  whyOthersLate: (lane, other) => `Con ${other} primero, se pasaría un tiempo máximo. Por eso ${lane}.`,
  whySooner: (other, later) => `Con ${other} primero, se terminaría ${later} después.`,
  whyWait: (lane, length) => `Después, ${lane} pasa ${length} sin necesitar manos.`,
  whyFewerChanges: 'Con cualquier orden se termina a la misma hora. Así usted camina menos.',
  whyOnlyWork: 'En los otros lugares ahora todo está detenido.',
  whyNotHere: 'El plan acaba de cambiar. Pregunte qué toca hacer.',
  cannotKeep: (lane, late) =>
    `Un tiempo máximo es imposible: ${lane} llegará cerca de ${late} tarde. Revise eso antes de trabajar ahí.`,

  partAt: (lane, part) => `${lane}: ${part}`,
  replacedPart: (part) => `Cambio de: ${trimEnd(part)}`,
  whichPart: (places) =>
    places.length > MOST_READ_OUT
      ? '¿Cuál puso nueva? Dígame su número en la pantalla.'
      : `¿Cuál puso nueva? ${places.map((place, index) => `${index + 1}. ${sentence(place)}`).join(' ')} Dígame el número.`,
  allOfThem: 'Todas estas',
  noWearParts: 'Aquí nada se cuenta como desgaste.',
  partReplaced: (lane, part) => `${lane}. Anotado como nuevo: ${sentence(part)}`,

  stillOpen: 'Esto sigue pendiente.',
  lastReminder: 'No le oigo. Toque la pantalla cuando pueda.',

  noReason: 'La razón no está escrita.',
  noDetail: 'No hay nada más que decir.',
  help: (options) => `Puede decir: ${list(options, 'or')}.`,
  handedOver: (name) => `${name} sigue desde aquí.`,
  joined: (name) => `${name} trabaja también aquí.`,
  left: (name) => `${name} se fue.`,
  problemNoted: (lane) => `Anotado. ${lane}: el trabajo está detenido. Cuando esté resuelto, dígame: ${SAY.corrected}.`,
  thatStep: 'El último paso',
  reportedByVoice: 'Avisado por voz',
  correctedByVoice: 'Resuelto, dicho por voz',

  refusal: (reason, lane, detail) => {
    switch (reason) {
      case 'wait-not-over':
        return `Demasiado pronto. ${lane}: ${lacking(detail.left)}.`
      case 'needs-caution':
        return 'Primero la precaución. Responda sí cuando la haya comprendido.'
      case 'needs-confirmation':
        return `Aquí se necesita la frase completa: ${detail.phrase}.`
      case 'needs-answer':
        return `Aquí se necesita una respuesta. ${detail.question}`
      case 'needs-correction':
        return `${lane}. El trabajo está detenido. Primero hay que arreglarlo.`
      case 'lane-at-barrier':
        return [
          `${lane} va después de los otros.`,
          ...(detail.others === '' ? [] : [`Primero: ${sentence(detail.others)}`]),
          ...about(detail.left)
        ].join(' ')
      case 'tool-in-use':
        return [
          `${lane} necesita algo que está en uso: ${sentence(detail.tool)}`,
          ...(detail.others === '' ? [] : [`Está en: ${sentence(detail.others)}`]),
          ...about(detail.left)
        ].join(' ')
      case 'lane-finished':
        return `${lane}: completo.`
      case 'paused':
        return `El trabajo está detenido. Para reanudarlo, dígame: ${SAY.resume}.`
      case 'nothing-to-take-back':
        return 'Nada se ha anotado hasta ahora.'
      case 'not-asked':
        return 'Nadie preguntó nada.'
      case 'unknown-lane':
        return 'Ese lugar no existe.'
      case 'wrong-kind-of-answer':
        return `Esa respuesta no sirve aquí. ${detail.question}`
      case 'in-other-hands':
        return `${lane} está en otras manos.`
      case 'only-hands':
        return 'Alguien tiene que quedarse. Mejor entregue el turno.'
      case 'not-started':
        return 'El trabajo no ha empezado.'
      case 'run-over':
        return 'El trabajo terminó.'
    }
  }
}

function about(left: string): readonly string[] {
  return left === '' ? [] : [`Falta alrededor de ${left}.`]
}

/** "falta 1 minuto", "faltan 2 minutos". */
function lacking(left: string): string {
  return `${/^1 /.test(left) ? 'falta' : 'faltan'} ${left}`
}

/** "a la 1:05", "a las 6:05". */
function at(clock: string): string {
  return `a ${clockNoun(clock)}`
}

function clockNoun(clock: string): string {
  return /^1\D/.test(clock) ? `la ${clock}` : `las ${clock}`
}

function trimEnd(text: string): string {
  return text.replace(/[.!?\s]+$/, '')
}

function sentence(text: string): string {
  return /[.!?]$/.test(text.trim()) ? text.trim() : `${text.trim()}.`
}

/** Rounded up, to whole seconds below an hour and to whole minutes above, so that nothing is promised early. */
function duration(ms: number): string {
  const seconds = Math.max(0, Math.ceil(ms / 1000))
  const shown = seconds < 3600 ? seconds : Math.ceil(seconds / 60) * 60
  const parts = [
    [Math.floor(shown / 3600), 'hora', 'horas'],
    [Math.floor((shown % 3600) / 60), 'minuto', 'minutos'],
    [shown % 60, 'segundo', 'segundos']
  ] as const
  const said = parts.filter(([value]) => value > 0).map(([value, one, many]) => count(value, one, many))
  return said.length === 0 ? '0 segundos' : said.join(' ')
}
