/** Spanish words the operator may use, as they are said in kitchens of Mexico and the United States; common practice, no source. */
import { numberWordsEs } from './number-words.es.ts'
import { parseNumberEs } from './numbers.es.ts'
import type { Vocabulary } from './vocabulary.en.ts'

/** Lists other than phrases are written as `tokens` leaves them: without accents. */
export const vocabularyEs: Vocabulary = {
  phrases: {
    done: [
      'todo listo',
      'listo',
      'lista',
      'todo lista',
      'ya está listo',
      'ya está lista',
      'ya quedó',
      'ya terminé',
      'terminé',
      'hecho',
      'ya está hecho',
      'ya está'
    ],
    next: ['paso siguiente', 'siguiente', 'siguiente paso', 'el que sigue'],
    repeat: [
      'otra vez',
      'repita',
      'dígalo otra vez',
      'repita eso',
      'repítalo',
      'repite',
      'repetir',
      'de nuevo',
      'dígalo de nuevo',
      'cómo dijo'
    ],
    'take-back': [
      'volver atrás',
      'vuelva atrás',
      'deshacer',
      'deshágalo',
      'deshaga eso',
      'deshaz eso',
      'regrese un paso'
    ],
    pause: [
      'un momento',
      'espere',
      'espera',
      'espere un momento',
      'espere tantito',
      'momento',
      'pausa',
      'haga una pausa'
    ],
    resume: ['sigamos adelante', 'continuar', 'continúe', 'sigamos', 'vamos a seguir', 'reanudar'],
    'how-long': [
      'cuánto falta',
      'cuánto tiempo falta',
      'cuánto tiempo',
      'cuánto queda',
      'cuánto tiempo queda',
      'cuánto le falta'
    ],
    'ready-when': [
      'a qué hora termina',
      'cuándo termina',
      'cuándo terminamos',
      'a qué hora terminamos',
      'cuándo está listo',
      'cuándo está lista',
      'cuándo estará listo',
      'cuándo estará lista',
      'a qué hora está lista'
    ],
    'what-now': ['qué sigue ahora', 'ahora qué', 'y ahora qué', 'qué sigue', 'qué hago ahora'],
    where: ['en qué íbamos', 'dónde íbamos', 'en qué estábamos', 'dónde estábamos', 'en qué estamos', 'dónde me quedé'],
    why: ['dígame por qué', 'por qué', 'por qué eso', 'para qué'],
    'why-here': [
      'por qué aquí',
      'por qué acá',
      'por qué este lado',
      'por qué este lado primero',
      'por qué ahora',
      'por qué no el otro lado'
    ],
    slower: ['más despacio', 'despacio', 'más lento', 'dígalo más despacio', 'hable más despacio', 'no tan rápido'],
    more: ['dígame más', 'más', 'más detalles', 'cómo se hace', 'cómo lo hago', 'cómo hago eso'],
    help: ['necesito ayuda', 'ayuda', 'ayúdeme', 'qué puedo decir'],
    yes: [
      'sí',
      'así es',
      'claro',
      'claro que sí',
      'correcto',
      'es correcto',
      'entendido',
      'entiendo',
      'sí entiendo',
      'de acuerdo',
      'eso es'
    ],
    no: ['no', 'no es así', 'todavía no', 'aún no', 'está mal'],
    quiet: ['guarde silencio', 'silencio', 'cállese'],
    problem: [
      'hay un problema',
      'problema',
      'un problema',
      'tengo un problema',
      'tenemos un problema',
      'algo anda mal',
      'algo está mal'
    ],
    'new-part': ['pieza cambiada', 'cambié una pieza', 'cambié la pieza', 'puse una pieza nueva', 'puse una nueva'],
    corrected: ['ya está corregido', 'corregido', 'ya lo corregí', 'arreglado', 'ya está arreglado', 'ya lo arreglé']
  },
  steps: {
    higher: ['más arriba', 'un poco más', 'súbale', 'suba', 'suba un poco', 'más alto'],
    lower: ['más abajo', 'un poco menos', 'bájele', 'baje', 'baje un poco', 'más bajo'],
    'far-higher': ['mucho más', 'mucho más alto', 'mucho más arriba'],
    'far-lower': ['mucho menos', 'mucho más bajo', 'mucho más abajo'],
    'that-is-it': ['eso es', 'ese es', 'ese es el número'],
    'other-scale': ['otra escala', 'la otra escala']
  },
  attention: ['hola sidecall', 'hola side call', 'oye sidecall', 'oye side call', 'sidecall', 'side call'],
  ambiguous: {
    alto: ['pause', 'problem'],
    pare: ['pause', 'problem'],
    parar: ['pause', 'problem'],
    atras: ['take-back', 'repeat'],
    regresar: ['take-back', 'repeat'],
    adelante: ['next', 'resume'],
    siga: ['next', 'resume'],
    ya: ['yes', 'done'],
    okay: ['yes', 'done'],
    ok: ['yes', 'done'],
    bien: ['yes', 'done'],
    bueno: ['yes', 'done']
  },
  filler: {
    before: [
      ...['por', 'favor', 'ya', 'bueno', 'ok', 'okay', 'a', 'ver', 'este', 'eh', 'em', 'mmm', 'pues', 'entonces'],
      ...['y', 'ahora', 'el', 'la', 'los', 'las', 'oiga', 'oye']
    ],
    after: ['por', 'favor', 'ok', 'okay', 'eh', 'em', 'este', 'pues', 'bueno']
  },
  beforeNumber: [
    ...[
      'son',
      'es',
      'hay',
      'da',
      'marca',
      'dice',
      'indica',
      'lee',
      'tengo',
      'conte',
      'me da',
      'me marca',
      'esta en',
      'esta a'
    ],
    ...['es de', 'el numero es', 'el numero']
  ],
  afterNumber: [
    ...[
      'degrees',
      'grados',
      'grado',
      'piezas',
      'pieza',
      'partes',
      'parte',
      'en total',
      'de ellas',
      'de ellos',
      'quitadas'
    ],
    ...['puestas']
  ],
  lanePatterns: [
    ...['$', 'lado $', 'el lado $', 'del lado $', 'al lado $', 'ir al lado $', 'vaya al lado $', 'vamos al lado $'],
    ...[
      'la $',
      'el $',
      'a $',
      'a la $',
      'al $',
      'ir a $',
      'ir a la $',
      'ir al $',
      'vaya a $',
      'vaya a la $',
      'vaya al $'
    ],
    ...['vamos a $', 'vamos a la $', 'vamos al $']
  ],
  // "Lado izquierdo", where the side's name is "Izquierda".
  sideForms: (name) => (/[oa]$/.test(name) ? [`${name.slice(0, -1)}${name.endsWith('a') ? 'o' : 'a'}`] : []),
  bench: ['mesa', 'mesa de trabajo', 'banco', 'fregadero', 'tarja'],
  machine: ['toda la maquina', 'maquina', 'maquina completa', 'ambos lados', 'los dos lados'],
  units: [
    ['partes por millon', '[ppm]'],
    ['parte por millon', '[ppm]'],
    ['pe pe eme', '[ppm]'],
    ['p p m', '[ppm]'],
    ['ppm', '[ppm]'],
    ['miligramos por litro', '[ppm]'],
    ['mg/l', '[ppm]'],
    ['grados celsius', 'Cel'],
    ['grado celsius', 'Cel'],
    ['celsius', 'Cel'],
    ['grados centigrados', 'Cel'],
    ['centigrados', 'Cel'],
    ['grados c', 'Cel'],
    ['degrees c', 'Cel'],
    ['c', 'Cel'],
    ['grados fahrenheit', '[degF]'],
    ['grado fahrenheit', '[degF]'],
    ['fahrenheit', '[degF]'],
    ['grados f', '[degF]'],
    ['degrees f', '[degF]'],
    ['f', '[degF]'],
    ['de pe hache', '[pH]'],
    ['pe hache', '[pH]'],
    ['de ph', '[pH]'],
    ['ph', '[pH]'],
    ['p h', '[pH]']
  ],
  number: parseNumberEs,
  numerals: numberWordsEs
}
