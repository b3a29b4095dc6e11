/** The Spanish words of a record: on the screen, on paper and in files for spreadsheets. */
import type { WaitKind } from '../procedure/procedure.ts'
import type { Meaning, RefusalReason, Via } from '../run/event.ts'
import type { NoteField } from './note-fields.ts'
import type { CorrectionRow, CrewRow, NameKnown, RunRecord, WaitRow } from './run-record.ts'
import type { RecordWords } from './words.en.ts'

const MEANINGS: Readonly<Record<Meaning, string>> = {
  authorship: 'autoría: yo escribí este registro',
  responsibility: 'responsabilidad: yo hice este trabajo',
  review: 'revisión: he revisado este registro',
  approval: 'aprobación: acepto este registro'
}
const STATUSES: Readonly<Record<RunRecord['status'], string>> = {
  open: 'sin terminar',
  complete: 'completo',
  'ended-early': 'terminado antes de tiempo'
}
const REVIEWS: Readonly<Record<RunRecord['review'], string>> = {
  unsigned: 'sin revisar',
  signed: 'revisado y firmado',
  'changed-since': 'cambió después de la firma'
}
const VIAS: Readonly<Record<Via, string>> = {
  voice: 'por voz',
  touch: 'con un toque',
  key: 'con tecla o pedal',
  typed: 'escrito',
  app: 'por el programa'
}
const CREW: Readonly<Record<CrewRow['kind'], string>> = {
  began: 'Empezó',
  joined: 'Se unió',
  left: 'Se fue',
  'handed-over': 'Se entregó a'
}
const KNOWN: Readonly<Record<NameKnown, string>> = {
  checked: 'PIN comprobado por el servidor',
  chosen: 'nombre elegido, sin comprobar',
  typed: 'nombre escrito, sin comprobar'
}
const BECAUSE: Readonly<Record<CorrectionRow['because'], string>> = {
  'bad-answer': 'fuera de límites',
  'too-many-rounds': 'mal después de la última vuelta',
  problem: 'se avisó de un problema',
  late: 'se pasó un tiempo máximo',
  'entries-lost': 'se perdieron anotaciones'
}
const WAITS: Readonly<Record<WaitKind, string>> = {
  agitation: 'mezcla',
  contact: 'tiempo de contacto',
  soak: 'remojo',
  drain: 'escurrido',
  dry: 'secado',
  freeze: 'congelado',
  settle: 'reposo'
}
const WAIT_RESULTS: Readonly<Record<WaitRow['result'], string>> = {
  kept: 'cumplida',
  running: 'sin terminar',
  'begun-anew': 'empezada de nuevo',
  'too-long': 'más larga de lo permitido'
}
const REASONS: Readonly<Record<RefusalReason, string>> = {
  'wait-not-over': 'la espera no había terminado',
  'needs-caution': 'faltaba confirmar la precaución',
  'needs-confirmation': 'hacía falta la frase completa o una tecla oprimida',
  'needs-answer': 'hacía falta una respuesta',
  'needs-correction': 'hacía falta una corrección',
  'lane-at-barrier': 'otros lugares debían terminar primero',
  'tool-in-use': 'el útil estaba ocupado',
  'lane-finished': 'ese lugar ya había terminado',
  paused: 'el trabajo estaba detenido',
  'nothing-to-take-back': 'no había nada que cancelar',
  'not-asked': 'nadie lo había pedido',
  'unknown-lane': 'ese lugar no existe',
  'wrong-kind-of-answer': 'era otra clase de respuesta',
  'in-other-hands': 'estaba en otras manos',
  'only-hands': 'eran las únicas manos',
  'not-started': 'el trabajo no había empezado',
  'run-over': 'el trabajo había terminado'
}
const NOTES: Readonly<Record<NoteField | 'remark', string>> = {
  'mix-lot': 'Lote de la mezcla',
  'mix-opened': 'Mezcla abierta',
  'mix-discard': 'Desechar la mezcla',
  product: 'Producto desinfectante',
  registration: 'Número de registro',
  'label-percent': 'Porcentaje en la etiqueta',
  'batch-volume': 'Volumen de la mezcla',
  dose: 'Dosis',
  'since-disassembly': 'Horas desde el último desarme completo',
  remark: 'Observación'
}
const LANES: Readonly<Record<string, string>> = { bench: 'Mesa', machine: 'Toda la máquina' }

export const recordWordsEs: RecordWords = {
  meaning: (meaning) => MEANINGS[meaning],
  status: (status) => STATUSES[status],
  review: (review) => REVIEWS[review],
  via: (via) => VIAS[via],
  crew: (kind, name, known) =>
    [
      kind === 'handed-over' ? `${CREW[kind]} ${name}` : `${name}: ${CREW[kind].toLowerCase()}`,
      ...(known === null ? [] : [`(${KNOWN[known]})`])
    ].join(' '),
  because: (because) => BECAUSE[because],
  wait: (kind) => WAITS[kind],
  waitResult: (result) => WAIT_RESULTS[result],
  reason: (reason) => REASONS[reason],
  note: (field) => (Object.hasOwn(NOTES, field) ? NOTES[field as NoteField] : field),
  lane: (lane) => LANES[lane] ?? lane,
  good: 'aceptable',
  bad: 'fuera de límites',
  yes: 'sí',
  no: 'no',
  takenBack: 'cancelado',
  setAside: (type) => `llegó demasiado tarde para contar (${type})`,
  from: 'al menos',
  upTo: 'como máximo',
  seconds: (seconds) => `${Math.round(seconds)} s`,
  minutesSeconds: (seconds) =>
    seconds < 60
      ? `${Math.round(seconds)} s`
      : `${Math.floor(Math.round(seconds) / 60)} min ${Math.round(seconds) % 60} s`,
  pieces: (pieces) => (pieces === 1 ? '1 pieza' : `${pieces} piezas`),
  attempt: (left) => `intentó acortar la espera, faltaban ${left}`,
  refused: (command, reason) => `"${command}" se rechazó: ${reason}`,
  lost: (entries) => (entries === 1 ? '1 anotación quedó ilegible' : `${entries} anotaciones quedaron ilegibles`),
  clockMoved: (by) => `el reloj del aparato se movió ${by}`,
  caughtUp: (by) => `el aparato se puso al día con el servidor por ${by}`,
  replaced: (name, pieces) => `${name}: ${pieces}`,
  amended: (was, now, reason) => `era ${was}, debía ser ${now}: ${reason}`,
  changedNote: (value, was) => `${value} (antes: ${was})`,
  correction: (action, because, old, anew) =>
    [action, because, old === null ? null : `era ${old}`, anew === null ? null : `después ${anew}`]
      .filter((part) => part !== null)
      .join('; '),
  ended: (reason) => `Terminado antes de tiempo: ${reason}`,
  notUnderstood: '(no se entendió)',
  finished: 'El trabajo terminó',
  paused: (how) => `Interrumpido por ${how}`,
  signed: (meaning, entries) => `${meaning} (${entries === 1 ? '1 anotación' : `${entries} anotaciones`})`,
  kinds: {
    step: 'paso',
    wait: 'espera',
    reading: 'lectura',
    count: 'conteo',
    question: 'pregunta',
    correction: 'corrección',
    attempt: 'intento de acortar una espera',
    refusal: 'rechazo',
    takenBack: 'cancelado',
    interruption: 'interrupción',
    crew: 'personal',
    problem: 'problema',
    note: 'nota',
    part: 'pieza cambiada',
    said: 'dicho',
    heard: 'oído',
    clock: 'reloj',
    lost: 'anotaciones perdidas',
    setAside: 'apartado',
    amendment: 'corrección de una anotación',
    end: 'final',
    signature: 'firma'
  }
}
