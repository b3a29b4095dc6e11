/** Spanish texts of the screens for records. */
import type { Meaning } from '../../core/run/event.ts'
import { count } from '../count.ts'
import type { RecordsScreenWords } from './words.en.ts'

const MEANINGS: Readonly<Record<Meaning, string>> = {
  review: 'Lo he revisado (revisión)',
  approval: 'Lo acepto (aprobación)',
  responsibility: 'Yo hice este trabajo (responsabilidad)',
  authorship: 'Yo lo escribí (autoría)'
}

const entries = (value: number) => count(value, 'anotación', 'anotaciones')
const runs = (value: number) => count(value, 'trabajo', 'trabajos')

export const recordsScreenWordsEs: RecordsScreenWords = {
  title: 'Registros',
  looking: 'Se buscan registros.',
  onlyDevice: (why) => `${why} Estos son solo los registros de este aparato.`,
  away: 'El servidor no contesta.',
  failed: (why) => `El servidor contestó con un problema: ${why}`,
  none: 'Todavía no hay registros.',
  more: (older) =>
    `En el servidor hay ${count(older, 'registro más antiguo', 'registros más antiguos')}; sáquelos por días.`,
  plannedAt: (times) => `previsto ${times}`,
  onlyHere: 'solo en este aparato',
  open: 'Abrir',
  begunBy: (who, when) => `${who}, desde ${when}`,
  machine: 'Máquina',
  all: 'Todas',
  from: 'Desde el día',
  to: 'Hasta el día',
  dayHint: 'Escriba un día así: 2026-11-28.',
  showThese: (shown) => (shown === 1 ? 'Leer o imprimir este' : `Leer o imprimir estos ${shown}`),
  tooMany: (most) => `Elija una máquina o días: se pueden mostrar como máximo ${most} juntos.`,
  lookBack: 'Mirar atrás',
  trends: {
    title: (last) => (last === 1 ? 'El último trabajo' : `Los últimos ${runs(last)}`),
    readings: {
      '[ppm]': 'Concentración, ppm',
      Cel: 'Temperatura, °C',
      '[degF]': 'Temperatura, °F',
      '[pH]': 'pH'
    },
    duration: 'Minutos de principio a fin',
    attempts: 'Intentos de acortar una espera',
    corrections: 'Correcciones',
    steps: 'En qué se va el tiempo, primero el paso que más cuesta',
    none: 'Todavía no ha terminado ningún trabajo.',
    bad: 'Una cruz está fuera de límites.',
    told: (title, first, last, least, most) => `${title}: del ${first} al ${last}, mínimo ${least}, máximo ${most}.`,
    cost: (step, seconds, planned, times) => `${step} ${seconds}, previsto ${planned} (${runs(times)})`
  },
  takeAway: 'Sacar archivos',
  server: 'Del servidor, para comprobar con npm run verify',
  device: 'Directo de este aparato',
  table: 'Tabla (CSV)',
  json: 'Evidencia (JSON)',
  print: 'Imprimir',
  back: 'Volver a la lista',
  refusedTitle: 'El servidor rechaza estas anotaciones. Se quedan en este aparato.',
  refused: (id, why) => `${id}: ${why}`,
  refusedCount: (value) => `El servidor rechaza ${entries(value)}. Vea Registros.`,
  unsent: (value, since) => `Sin llegar al servidor desde ${since}: ${entries(value)}.`,
  unsentOld: (value, since) =>
    `Sin llegar al servidor desde ${since}: ${entries(value)}. Haga volver el servidor o saque ahora los registros de este aparato: no están en ninguna otra parte.`,
  today: 'Lo que toca hacer',
  calendar: 'Enlace para un calendario',
  worn: (part, lane, worn) =>
    `${part}, ${lane}: ${worn === 'due' ? 'cambiar por piezas nuevas' : 'tener piezas nuevas a mano'}`,
  sign: 'Firmar',
  signTitle: 'Firmar este registro',
  signer: 'Su nombre',
  signAs: (name) => `Usted firma como ${name}.`,
  signAway: 'El servidor no contesta. Ahí se firman los registros.',
  signNoOwner:
    'Este local todavía no tiene dueño, y los registros los firma quien inicia sesión. “Personas y aparatos”, en la primera pantalla, dice cómo obtener uno.',
  signPeople: 'Personas y aparatos',
  meaning: 'Qué significa su firma',
  meanings: MEANINGS,
  signHint: 'Una firma cubre lo que está aquí ahora. Lo que llegue después pide otra.',
  note: 'Agregar al registro',
  noteWhat: 'Qué',
  noteValue: 'Palabras',
  keep: 'Guardar',
  amend: 'Corregir una respuesta',
  amendWhich: 'Qué respuesta se anotó mal',
  amendNow: 'Qué debía ser',
  amendReason: 'Por qué',
  amendHint: 'Las dos quedan en el registro. El trabajo no se repite por esto.',
  notices: {
    signed: 'Firmado. La firma está al final del registro.',
    kept: 'Guardado. Está en el registro.',
    unsent: 'Algunas anotaciones todavía no llegan al servidor. Firme cuando hayan llegado.',
    notKept: (why) => `No se pudo guardar: ${why}`,
    notSigned: (why) => `Sin firmar. ${why}`
  },
  unsentHere: (value) => `Sin llegar al servidor, de este registro: ${entries(value)}.`,
  example: 'Un ejemplo, para una máquina inventada: no prueba que se haya limpiado ninguna máquina.',
  serverAway: 'Ahora no se puede preguntar al servidor: puede haber más anotaciones.',
  sections: {
    checks: 'Lecturas, conteos y preguntas',
    waits: 'Esperas',
    trouble: 'Lo que falló y lo que se hizo',
    notes: 'Notas y piezas nuevas',
    people: 'Personas, interrupciones y relojes',
    steps: 'Pasos',
    said: 'Lo que se dijo y se oyó',
    signatures: 'Firmas',
    fields: 'Datos y de dónde vienen'
  },
  columns: {
    time: 'Hora',
    lane: 'Dónde',
    what: 'Qué',
    asked: 'Pedido',
    actual: 'Encontrado',
    result: 'Resultado',
    who: 'Quién',
    said: 'Palabras'
  },
  saidHint: (lines) => `${lines === 1 ? '1 línea' : `${lines} líneas`}: ábralas para leerlas y para imprimirlas`,
  saidTo: (operator) => `Sidecall, a ${operator}`,
  head: {
    site: 'Local',
    machine: 'Máquina',
    procedure: 'Procedimiento',
    version: 'Versión',
    run: 'Trabajo',
    begun: 'Empezado',
    ended: 'Terminado',
    zone: 'Horas según el reloj de',
    operators: 'Operadores',
    status: 'Estado',
    review: 'Revisión',
    sides: 'Lados',
    solutions: 'Soluciones',
    entries: 'Anotaciones'
  },
  notEnded: 'todavía no',
  nothing: 'Nada.',
  notEntered: 'sin anotar',
  inRecord: 'en este registro',
  skew: (device, least, most) => `Reloj del aparato ${device}: de ${least} a ${most} respecto a la hora confiable`,
  byHand: 'A mano: nombre, fecha, significado',
  labelFirst: 'Primero valen la etiqueta del producto, el manual y las normas locales.'
}
