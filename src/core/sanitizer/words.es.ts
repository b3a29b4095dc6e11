/** Every Spanish word about strengths, readings and mixing. */
import type { Gas } from './chemical-order.ts'
import type { Action } from './judge.ts'
import type { MeasureId } from './measure.ts'
import type { Aspect, Quantity, Status, Subject } from './rule-set.ts'
import type { TemperatureUnit } from './temperature.ts'
import type { UnitSystem } from './unit.ts'
import type { SanitizerWords } from './words.en.ts'

/** With the article that a sentence needs. */
const QUANTITIES: Readonly<Record<Quantity, string>> = {
  ppm: 'la concentración',
  temperature: 'la temperatura',
  ph: 'el pH',
  hardness: 'la dureza del agua',
  seconds: 'el tiempo de contacto',
  clear: 'el aspecto del enjuague'
}

const UNITS: Readonly<Record<Quantity, string>> = {
  ppm: ' ppm',
  temperature: '',
  ph: '',
  hardness: ' mg/L',
  seconds: ' s',
  clear: ''
}

const ACTIONS: Readonly<Record<Action, string>> = {
  'add-product': 'Agregue producto, revuelva y mida otra vez.',
  'remix-weaker': 'Tírela, prepare una mezcla más débil y mida otra vez.',
  'remix-fresh': 'Prepare una mezcla nueva con agua limpia y mida otra vez.',
  warm: 'Caliéntela y mida otra vez.',
  'warm-or-add-product':
    'Agregue producto, porque una solución más fuerte puede estar más fría, o caliéntela. Después mida otra vez.',
  cool: 'Deje enfriar y mida otra vez.',
  'hold-longer': 'Manténgalo mojado hasta que se cumpla el tiempo.',
  'softer-water': 'Use agua más blanda o un producto cuya etiqueta permita esta agua.',
  'rinse-again': 'Enjuague y mire otra vez.',
  'discard-if-long': 'Averigüe cuánto tiempo estuvo tibio. Si hay duda, tírelo.'
}

const STATUSES: Readonly<Record<Status, string>> = {
  read: 'leído en su propio texto',
  'adopted-text': 'leído en un texto que lo adopta',
  secondary: 'según una página secundaria',
  memory: 'de memoria, sin comprobar'
}

const ASPECTS: Readonly<Record<Aspect, string>> = {
  solution: 'la concentración',
  contact: 'el tiempo de contacto',
  cap: 'lo máximo que puede quedar sin enjuagar',
  temperature: 'la temperatura',
  look: 'el aspecto'
}

const SUBJECTS: Readonly<Record<Subject, string>> = {
  chlorine: 'cloro',
  iodine: 'yodo',
  quat: 'amonio cuaternario',
  'hot-water': 'agua caliente',
  'hot-water-machine': 'agua caliente en una máquina',
  'cold-holding': 'conservación en frío',
  'handwash-water': 'agua para lavarse las manos',
  'wash-water': 'agua de lavado',
  'heat-treatment': 'tratamiento con calor',
  rinse: 'enjuague'
}

const SYSTEMS: Readonly<Record<UnitSystem, string>> = {
  us: 'de EE. UU.',
  imperial: 'del sistema imperial',
  metric: 'del sistema métrico',
  australian: 'de Australia'
}

const MEASURE_WORDS: Readonly<Record<string, string>> = {
  ml: 'mL',
  l: 'L',
  syringe: 'mL con jeringa',
  g: 'g',
  'fine-scale': 'g en báscula fina',
  tablet: 'tabletas',
  floz: 'fl oz',
  tsp: 'cucharaditas',
  tbsp: 'cucharadas',
  cup: 'tazas',
  pt: 'pintas',
  qt: 'cuartos de galón',
  gal: 'galones'
}

const shown = (value: number) => String(Number(value.toPrecision(6)))
const about = (value: number) => String(Number(value.toPrecision(4)))
const capital = (text: string) => text.slice(0, 1).toUpperCase() + text.slice(1)
const list = (items: readonly string[]) =>
  items.length < 2 ? (items[0] ?? '') : `${items.slice(0, -1).join(', ')} o ${items.at(-1) ?? ''}`
const withUnit = (value: string, quantity: Quantity, unit: TemperatureUnit | null) =>
  `${value}${unit === null ? UNITS[quantity] : ` °${unit}`}`

/** A fraction where a spoon or a jug has one: 1 1/2, not 1.5. */
const FRACTIONS: Readonly<Record<string, string>> = { '0.25': '1/4', '0.5': '1/2', '0.75': '3/4' }
function counted(count: number): string {
  const whole = Math.floor(count)
  const part = FRACTIONS[String(count - whole)]
  if (part === undefined) return shown(count)
  return whole === 0 ? part : `${whole} ${part}`
}

function measure(id: MeasureId): string {
  const [name, system] = id.split('-') as [string, UnitSystem | undefined]
  return MEASURE_WORDS[id] ?? `${MEASURE_WORDS[name] ?? name}${system === undefined ? '' : ` ${SYSTEMS[system]}`}`
}

const measures = (ids: readonly MeasureId[]) => list(ids.map(measure))

export const sanitizerWordsEs: SanitizerWords = {
  subject: (subject) => SUBJECTS[subject],
  source: ({ source, edition, status }) => `${source} (${edition}; ${STATUSES[status]})`,
  labelFirst: 'Primero valen la etiqueta del producto y las normas locales.',

  from: (source) => `Fuente: ${source}`,
  good: 'Aceptable.',
  outOfLimits: 'Fuera de límites.',
  unknown: 'Esto todavía no se puede evaluar.',
  out: ({ quantity, side, value, bound, by, unit, action }) => {
    if (side === 'not-clear') return `El enjuague no está claro. ${ACTIONS[action]}`
    const [bounded, much] = side === 'below' ? ['al menos', 'de menos'] : ['como máximo', 'de más']
    const amount = (number: number) => withUnit(shown(number), quantity, unit)
    const missed = withUnit(about(by), quantity, unit)
    return `${capital(QUANTITIES[quantity])}: ${amount(value)}, se pide ${bounded} ${amount(bound)}: ${missed} ${much}. ${ACTIONS[action]}`
  },
  missing: (one) => {
    switch (one.kind) {
      case 'reading':
        return `Falta ${QUANTITIES[one.quantity]}.`
      case 'label':
        return `Falta ${QUANTITIES[one.quantity]} en la etiqueta del producto, y la norma lo deja a la etiqueta.`
      case 'limit':
        return `Ninguna norma ni etiqueta de aquí tiene un límite para ${ASPECTS[one.aspect]}.`
    }
  },
  assumed: ({ demand }) =>
    `No se dio ${QUANTITIES[demand.quantity]}. ${'max' in demand && demand.max !== null ? `Debe ser como máximo ${withUnit(shown(demand.max), demand.quantity, null)}.` : ''}`.trim(),
  implausible: ({ quantity, value, unit, from, to }) =>
    `${capital(QUANTITIES[quantity])} no puede ser ${withUnit(shown(value), quantity, unit)}. Debe estar entre ${shown(from)} y ${withUnit(shown(to), quantity, unit)}. Mida otra vez.`,

  ask: (parsed) => {
    switch (parsed.kind) {
      case 'which-number': {
        const meant = [parsed.decimal, parsed.thousands].flatMap((value) => (value === null ? [] : [shown(value)]))
        return `¿Quiere decir ${list(meant)}? Escriba un punto para los decimales, sin coma.`
      }
      case 'which-system':
        return `¿Qué ${parsed.unit}: ${list(parsed.systems.map((system) => SYSTEMS[system]))}?`
      case 'which-unit':
        return `¿${shown(parsed.value)} de qué? Agregue una unidad, como mL, fl oz o g.`
      case 'unknown-unit':
        return `"${parsed.unit}" no es una unidad conocida aquí.`
      case 'negative':
        return `${shown(parsed.value)} es menos que cero.`
      case 'no-number':
        return 'Ahí no hay ningún número.'
    }
  },

  outOfRange: (value, above, most) =>
    `${shown(value)} no puede ser. ${[...(Number.isFinite(above) ? [`Debe ser más que ${shown(above)}.`] : []), ...(most !== null && Number.isFinite(most) ? [`Debe ser como máximo ${shown(most)}.`] : [])].join(' ')}`.trim(),
  noVolume: 'Eso no es un volumen. Escriba uno como 7.6 L o 2 gal.',
  whichScale: 'Escriba C o F detrás, como 24 C o 75 F.',

  measure,
  counted,
  dose: (id, count) =>
    `${['ml', 'g', 'syringe', 'fine-scale'].includes(id) ? shown(count) : counted(count)} ${measure(id)}`,
  recipe: (product, litres) => `Ponga ${product} y llene con agua fría hasta ${about(litres)} L.`,
  makes: (low, high) => (low === high ? `Eso da ${about(low)} ppm.` : `Eso da de ${about(low)} a ${about(high)} ppm.`),
  inMeasures: (doses) =>
    doses.length === 0
      ? 'Ninguna de las medidas usuales sirve: pese o mida la cantidad exacta.'
      : `En medidas enteras: ${doses.map(([text, ppm]) => `${text} (${about(ppm)} ppm)`).join(', ')}.`,
  mixing: [
    'Precaución. El producto puede quemar la piel y los ojos. Use guantes y lentes de protección, y vierta bajo y despacio.',
    'Agregue el producto al agua fría, nunca agua al producto y nunca agua caliente. Prepare mezcla nueva cada día y ponga etiqueta al recipiente.'
  ],
  readStrip: 'Mida con una tira reactiva antes de usarla. Use guantes y lentes de protección.',
  guess: (guess) =>
    guess.kind === 'convention'
      ? 'El porcentaje de la etiqueta se tomó por 10 000, como en las tablas publicadas. Por peso puede variar hasta un décimo: mire la etiqueta.'
      : `La densidad se tomó como ${guess.low === guess.high ? guess.low : `${guess.low} a ${guess.high}`} kg/L, lo usual a esta concentración. La verdadera está en la hoja de seguridad.`,
  overCap: (capPpm) =>
    `Rechazado: más de ${shown(capPpm)} ppm no puede quedar sin enjuague en superficies que tocan alimentos.`,
  densityMissing:
    'Rechazado: un porcentaje por peso necesita la densidad (kg/L), que falta. Está en la hoja de seguridad.',
  densityTooVague: (capPpm, highPpm) =>
    `Rechazado: sin la densidad verdadera podría llegar a ${about(highPpm)} ppm, y el máximo es ${shown(capPpm)} ppm. Dé la densidad o pida menos.`,
  stockTooWeak: (stockPpm) => `Rechazado: el producto mismo solo tiene ${about(stockPpm)} ppm.`,
  wrongMeasure: (fitting) => `Rechazado: este producto no se mide así. Sirven: ${measures(fitting)}.`,
  noStepFits: (id, below, above, fitting) =>
    `Rechazado: por medida (${measure(id)}), una da ${about(below)} ppm y la siguiente ${about(above)} ppm, así que ninguna sirve. ${
      fitting.length === 0
        ? 'Ninguna medida de aquí sirve: pida menos o prepare una mezcla más grande.'
        : `Sirven: ${measures(fitting)}.`
    }`,
  belowMinimum: (agent, ppm) =>
    `${shown(ppm)} ppm es lo mínimo que cuenta aquí como desinfectante de ${SUBJECTS[agent]}; esto es más débil.`,

  compared: ({ verdict, overCap }) =>
    [
      {
        'as-published': 'como está publicado',
        weaker: 'más débil que lo publicado',
        stronger: 'más fuerte que lo publicado'
      }[verdict],
      ...(overCap ? ['sobre el máximo'] : [])
    ].join(', '),

  gas: (gas: Gas) =>
    gas === 'chlorine'
      ? 'Advertencia. El ácido y el cloro de lavar sueltan gas cloro, que puede matar. Enjuague por completo con agua entre los dos y nunca los mezcle.'
      : 'Advertencia. El amoníaco y el cloro de lavar sueltan gas de cloramina, que puede matar. Enjuague por completo con agua entre los dos y nunca los mezcle.'
}
