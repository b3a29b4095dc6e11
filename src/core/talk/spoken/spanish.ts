/** How Spanish says figures and short forms. Common practice in Mexico and the United States, no source. */
import { numberWordsEs, type Counted } from '../number-words.es.ts'
import { speaksIn } from './speakable.ts'
import type { Fraction, SpokenLanguage, UnitWords } from './spoken-language.ts'
import { unitsEs } from './units.es.ts'

const PARTS: Readonly<Record<number, string>> = {
  2: 'medio',
  3: 'tercio',
  4: 'cuarto',
  5: 'quinto',
  8: 'octavo',
  10: 'décimo',
  16: 'dieciseisavo'
}
const ORDINALS = [
  ...['', 'primero', 'segundo', 'tercero', 'cuarto', 'quinto'],
  ...['sexto', 'séptimo', 'octavo', 'noveno', 'décimo']
]
const MONTHS = [
  ...['enero', 'febrero', 'marzo', 'abril', 'mayo', 'junio'],
  ...['julio', 'agosto', 'septiembre', 'octubre', 'noviembre', 'diciembre']
]

const genderOf = (unit: UnitWords | null): Counted => (unit === null ? 'nothing' : (unit.gender ?? 'masculine'))

const spanish: SpokenLanguage = {
  numeral: String.raw`(?:\d{1,3}(?:,\d{3})+(?!\d)|\d+)(?:[.,]\d+)?`,
  number: (numeral, unit) => numberWordsEs(numeral, genderOf(unit)),
  minus: 'menos',
  units: unitsEs,
  unitsAlone: ['ppm', 'mg/L', 'mL/L', 'g/L', 'oz/gal', 'psi', '°C', '°F', 'fl oz', 'mL', 'pH', '%'],
  per: 'por',
  rangeWord: 'a',
  rangeWritten: 'a',
  fraction: fractionWords,
  time(hour, minute, half) {
    const said = numberWordsEs(String(hour), 'feminine')
    const minutes = minute === 0 ? '' : ` ${minute < 10 ? 'cero ' : ''}${numberWordsEs(String(minute))}`
    if (half !== null) return `${said}${minutes} ${partOfDay(hour, half)}`
    if (minute > 0) return `${said}${minutes}`
    return hour > 0 && hour < 13 ? `${said} en punto` : `${said} horas`
  },
  minutesAndSeconds: (minutes, seconds) =>
    [counted(Number(minutes), 'minuto'), ...(Number(seconds) > 0 ? [counted(Number(seconds), 'segundo')] : [])].join(
      ' '
    ),
  ratio: (parts) => parts.join(' a '),
  ratioCue: /(?<!\p{L})(?:mezcl\p{L}*|dilu\p{L}*|proporción|partes?|concentra\p{L}*)(?!\p{L})/iu,
  ordinals: {
    written: /(?<![\w.,/-])(\d{1,2})(\.?ª|\.°|\.?er|ro|ra|do|da|to|ta|mo|ma|vo|va|no|na)(?![\p{L}\w])/gu,
    words: (numeral, ending) => {
      const word = ORDINALS[Number(numeral)]
      if (!word) return null
      if (ending.endsWith('er')) return word.slice(0, -1)
      return /[aª]$/.test(ending) ? `${word.slice(0, -1)}a` : word
    }
  },
  date: (year, month, day) =>
    `${day === 1 ? 'primero' : numberWordsEs(String(day))} de ${MONTHS[month - 1] ?? ''} de ${numberWordsEs(String(year))}`,
  shortForms: [
    [/\b24\/7\b/g, 'veinticuatro siete'],
    [/(?<=\d ?)([ap])\. ?m\.(?=$|\s+[\p{Lu}¿¡])/gu, '$1m.'],
    [/(?<=\d ?)([ap])\. ?m\./g, '$1m'],
    [/\bp\. ?ej\.,?/gi, 'por ejemplo'],
    [/\betc\.(?=$|\s+\p{Lu})/gu, 'etcétera.'],
    [/\betc\b\.?/g, 'etcétera'],
    [/\baprox\./gi, 'aproximadamente'],
    [/(?<!\p{L})máx\b\.?/giu, 'máximo'],
    [/(?<!\p{L})mín\b\.?/giu, 'mínimo'],
    [/\btemp\./gi, 'temperatura'],
    [/\bcant\./gi, 'cantidad'],
    [/\bc\/u(?!\p{L})/giu, 'cada uno'],
    [/(?<!\p{L})(?:n\.°|núm\.|No\.|N°) ?(?=\d)/giu, 'número '],
    [/#(?=\d)/g, 'número '],
    [/ ?& ?/g, ' y '],
    [/(?<=\d) ?[x×] ?(?=\d)/g, ' por '],
    [/(?<![\w.])(\d[\d.,]*)\+(?!\d)/g, 'al menos $1'],
    [/(?<=\p{L}|\d) ?\+ ?(?=\p{L}|\d)/gu, ' más '],
    [/± ?/g, 'más o menos '],
    [/(?:≥|>=) ?/g, 'al menos '],
    [/(?:≤|<=) ?/g, 'como máximo '],
    [/< ?(?=[\d.-])/g, 'menos de '],
    [/> ?(?=[\d.-])/g, 'más de '],
    [/[~≈] ?(?=[\d.])/g, 'aproximadamente '],
    [/ ?= ?/g, ' igual a '],
    [/ ?(?:→|⇒|->) ?/g, ' a '],
    [/\by\/o\b/g, 'y o']
  ],
  webAddress: 'la dirección web mostrada',
  spelled: new Set(['EPP', 'FDA', 'EPA', 'CIP', 'ID', 'UV', 'USB', 'LED'])
}

/** Spanish text as a voice should get it. */
export const speakableEs = speaksIn(spanish)

function partOfDay(hour: number, half: 'am' | 'pm'): string {
  if (half === 'am') return hour === 12 ? 'de la noche' : 'de la mañana'
  if (hour === 12) return 'del mediodía'
  return hour < 8 ? 'de la tarde' : 'de la noche'
}

function counted(value: number, unit: string): string {
  return `${numberWordsEs(String(value), 'masculine')} ${unit}${value === 1 ? '' : 's'}`
}

/** "media taza", "un cuarto de galón", "una taza y media", "dos galones y un cuarto". */
function fractionWords({ whole, over, under }: Fraction, unit: UnitWords | null): string | null {
  const part = PARTS[under]
  if (part === undefined || over < 1 || over >= under) return null
  const isHalf = over === 1 && under === 2
  const half = unit?.gender === 'feminine' ? 'media' : 'medio'
  const parts = over === 1 ? `un ${part}` : `${numberWordsEs(String(over))} ${part}s`
  if (whole === null) {
    if (unit === null) return parts
    return isHalf ? `${half} ${unit.one}` : `${parts} de ${unit.one}`
  }
  const rest = isHalf ? half : parts
  const front = numberWordsEs(whole, genderOf(unit))
  return unit === null ? `${front} y ${rest}` : `${front} ${whole === '1' ? unit.one : unit.many} y ${rest}`
}
