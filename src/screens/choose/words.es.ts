/** Spanish texts of the first screen. */
import type { CopyAbsence } from '../../app/page-updates.ts'
import { count } from '../count.ts'
import type { ChooseWords, SettingsWords } from './words.en.ts'

const NO_COPY: Readonly<Record<CopyAbsence, string>> = {
  insecure:
    'esta dirección no es una conexión segura. Abra la página por https, o en la computadora del servidor por http://localhost.',
  unsupported: 'este navegador no guarda copia de la página. Salga del modo privado o use otro navegador.',
  failed:
    'no se pudo guardar la copia de la página. Haga espacio en este aparato y abra la página otra vez con el servidor presente.'
}

export const settingsWordsEs: SettingsWords = {
  operator: 'Su nombre',
  site: 'Nombre del local',
  units: 'Unidades',
  metric: 'Métricas (L, °C)',
  us: 'De EE. UU. (gal, °F)',
  distance: 'Esta pantalla se lee desde',
  distances: { hand: 'la mano, 0.6 m', near: 'la mesa, 1.5 m', far: 'el otro lado, 2 m' },
  look: 'Colores',
  looks: { device: 'como en el aparato', light: 'claros', dark: 'oscuros', strong: 'contraste máximo' },
  screenSize: 'Tamaño de esta pantalla',
  screenSizeHow: (side) =>
    `Ponga una tarjeta bancaria contra la barra, con su lado ${side === 'long' ? 'largo' : 'corto'} parejo. Mueva el control hasta que midan lo mismo. Así letras y botones tienen su tamaño debido.`,
  screenSizeUnknown: 'Sin medir: los tamaños son los de la mayoría de las tabletas.',
  screenSizeKnown: (mm) => `Medida: esta página tiene ${mm} mm de ancho.`,
  screenSizeForget: 'Olvidarlo',
  pedal: {
    title: 'Pedal, control remoto o interruptor',
    how: 'Casi todos sirven de inmediato. Al que no, se le enseña aquí: toque Enseñar y pise su interruptor.',
    meanings: {
      done: 'Listo y, si se mantiene, confirmar',
      again: 'Otra vez y, si se mantiene, no',
      back: 'Volver atrás'
    },
    usual: { done: 'Espacio, Entrar, Av Pág', again: 'Re Pág', back: 'Retroceso' },
    teach: 'Enseñar',
    forget: 'Olvidar',
    pressNow: 'Pise ahora el interruptor; Escape lo deja como estaba.',
    notThatOne: 'Esa tecla hace falta para otra cosa. Pise otra.',
    howMany: 'Interruptores',
    several: 'dos o más',
    single: (seconds) => `solo uno: si se mantiene mucho, se le ofrece todo, ${seconds} s cada cosa`
  },
  attention: 'Lo que se dice cuenta',
  attentions: { none: 'siempre', word: 'solo después de "hola sidecall": para lugares ruidosos' },
  room: 'El cuarto',
  rooms: { usual: 'suena poco tiempo', echoing: 'suena mucho: el oído abre más tarde' }
}

export const chooseWordsEs: ChooseWords = {
  title: '¿Qué va a limpiar?',
  more: 'El resto del día',
  records: 'Registros y lo que toca hacer',
  workshop: 'Procedimientos: mejorar y publicar',
  practice: 'Practicar su voz',
  sums: 'Mezclar o evaluar una lectura',
  people: 'Personas y aparatos',
  loading: 'Se buscan procedimientos y trabajos sin terminar.',
  none: 'Todavía no hay procedimientos. Ponga archivos de procedimientos en la carpeta que lee el servidor.',
  unreachable:
    'El servidor no contesta. Los procedimientos y trabajos guardados en este aparato funcionan sin él y se envían después.',
  failed: (detail) => `El servidor contestó con un problema: ${detail}`,
  again: 'Buscar otra vez',
  unreadable: (runs) =>
    `Con ${count(runs, 'trabajo', 'trabajos')} de este aparato no se puede seguir: el comienzo está dañado y el servidor no lo tiene. Lo que queda se conserva; avise al supervisor. Empiece de nuevo desde la lista.`,
  mayBeCleared:
    'Este navegador puede borrar lo guardado aquí cuando necesita espacio. Ponga esta página en la pantalla de inicio del aparato para que no lo haga.',
  startsAlone: 'Este aparato también empieza sin el servidor.',
  newer: 'Hay una versión más nueva de esta página.',
  takeNewer: 'Usarla ahora',
  newerHeldBack:
    'Hay una versión más nueva de esta página, pero otra pestaña tiene un trabajo abierto. Úsela cuando termine, o cierre todas las pestañas y abra esta página otra vez.',
  needsServer: (reason) => `Este aparato no puede empezar sin el servidor: ${NO_COPY[reason]}`,
  example: 'Ejemplo',
  sides: (names) => names.join(' · '),
  about: (ms) => `unos ${count(Math.max(1, Math.round(ms / 60_000)), 'minuto', 'minutos')}`,
  open: 'Sin terminar',
  allOpen: (runs) => `Mostrar los ${runs}`,
  goOn: 'Seguir',
  startedBy: (name, when) => `${name}, desde ${when}`,
  lastSeen: (when) => `visto por última vez ${when}`,
  faults: 'Archivos de procedimientos que no se pueden usar',
  line: (line) => `Línea ${line}`,
  mend: (how) => `Para arreglarlo: ${how}`,
  settings: 'Ajustes de este aparato'
}
