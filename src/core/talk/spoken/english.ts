/** How English says figures and short forms. Common practice in the United States, no source. */
import { numberWordsEn } from '../number-words.en.ts'
import { speaksIn } from './speakable.ts'
import type { Fraction, SpokenLanguage, UnitWords } from './spoken-language.ts'
import { unitsEn } from './units.en.ts'

const PARTS: Readonly<Record<number, string>> = {
  2: 'half',
  3: 'third',
  4: 'quarter',
  5: 'fifth',
  8: 'eighth',
  10: 'tenth',
  16: 'sixteenth',
  32: 'thirty-second'
}
const IRREGULAR_ORDINALS: Readonly<Record<string, string>> = {
  one: 'first',
  two: 'second',
  three: 'third',
  five: 'fifth',
  eight: 'eighth',
  nine: 'ninth',
  twelve: 'twelfth'
}
const MONTHS = [
  ...['January', 'February', 'March', 'April', 'May', 'June'],
  ...['July', 'August', 'September', 'October', 'November', 'December']
]

const english: SpokenLanguage = {
  numeral: String.raw`(?:\d{1,3}(?:,\d{3})+|\d+)(?:\.\d+)?|\.\d+`,
  number: (numeral) => numberWordsEn(numeral.startsWith('.') ? `0${numeral}` : numeral),
  minus: 'minus',
  units: unitsEn,
  unitsAlone: [
    'ppm',
    'PPM',
    'mg/L',
    'mL/L',
    'g/L',
    'oz/gal',
    'psi',
    'PSI',
    'rpm',
    'gpm',
    '°C',
    '°F',
    'fl oz',
    'tsp',
    'tbsp',
    'pH',
    'mL',
    'kPa',
    '%'
  ],
  per: 'per',
  rangeWord: 'to',
  rangeWritten: 'to',
  fraction: fractionWords,
  time(hour, minute, half) {
    const said = numberWordsEn(String(hour))
    const after = half === null ? '' : half === 'am' ? ' A M' : ' P M'
    if (minute > 0) return `${said} ${minute < 10 ? 'oh ' : ''}${numberWordsEn(String(minute))}${after}`
    return half === null ? (hour > 0 && hour < 13 ? `${said} o'clock` : `${said} hundred`) : `${said}${after}`
  },
  minutesAndSeconds: (minutes, seconds) =>
    [counted(Number(minutes), 'minute'), ...(Number(seconds) > 0 ? [counted(Number(seconds), 'second')] : [])].join(
      ' '
    ),
  ratio: (parts) => parts.join(' to '),
  ratioCue: /\b(?:mix|mixed|mixing|dilut\w*|ratio|parts?|concentrat\w*|strength)\b/i,
  ordinals: { written: /(?<![\w.,/-])(\d{1,4})(st|nd|rd|th)(?!\w)/g, words: ordinal },
  date: (year, month, day) => `${MONTHS[month - 1] ?? ''} ${ordinal(String(day))}, ${yearWords(year)}`,
  shortForms: [
    [/\bdegrees (?=[CF]\b)/g, '°'],
    [/\b24\/7\b/g, 'twenty four seven'],
    [/\be\.g\.,?/gi, 'for example'],
    [/\bi\.e\.,?/gi, 'that is'],
    [/\betc\.(?=$|\s+[A-Z])/g, 'and so on.'],
    [/\betc\b\.?/g, 'and so on'],
    [/\bapprox\./gi, 'about'],
    [/\bvs\b\.?/gi, 'versus'],
    [/\bincl\./gi, 'including'],
    [/\bmax\b\.?(?=[: ]+\d)/gi, 'maximum'],
    [/(?<!\d ?)\bmin\b\.?(?=[: ]+\d)/gi, 'minimum'],
    [/(?<=\w )max\./gi, 'maximum'],
    [/\btemp\./gi, 'temperature'],
    [/\bqty\b\.?/gi, 'quantity'],
    [/\bw\/o\b/gi, 'without'],
    [/\bw\/(?=\s|\d)/gi, 'with'],
    [/\b(No|Nr|Nos)\. ?(?=\d)/g, 'number '],
    [/#(?=\d)/g, 'number '],
    [/ ?& ?/g, ' and '],
    [/(?<=\d) ?[x×] ?(?=\d)/g, ' by '],
    [/(?<=\d) ?[x×](?!\w)/g, ' times'],
    [/(?<![\w.])(\d[\d.,]*)\+(?!\d)/g, 'at least $1'],
    [/(?<=\w) ?\+ ?(?=\w)/g, ' plus '],
    [/± ?/g, 'plus or minus '],
    [/(?:≥|>=) ?/g, 'at least '],
    [/(?:≤|<=) ?/g, 'at most '],
    [/< ?(?=[\d.-])/g, 'less than '],
    [/> ?(?=[\d.-])/g, 'more than '],
    [/[~≈] ?(?=[\d.])/g, 'about '],
    [/ ?= ?/g, ' equals '],
    [/ ?(?:→|⇒|->) ?/g, ' to '],
    [/ @ ?/g, ' at '],
    [/\band\/or\b/g, 'and or'],
    [/\b[Oo]-ring/g, 'O ring'],
    [/\bHACCP\b/g, 'hassip']
  ],
  webAddress: 'the web address shown',
  spelled: new Set(['PPE', 'SDS', 'QAC', 'FDA', 'EPA', 'CIP', 'COP', 'ID', 'UV', 'QA', 'AC', 'USB', 'LED', 'AM', 'OK'])
}

/** English text as a voice should get it. Applied twice it changes nothing more. */
export const speakableEn = speaksIn(english)

function counted(value: number, unit: string): string {
  return `${numberWordsEn(String(value))} ${unit}${value === 1 ? '' : 's'}`
}

function ordinal(numeral: string): string {
  const words = numberWordsEn(numeral).split(' ')
  const last = words.pop() ?? ''
  const said =
    IRREGULAR_ORDINALS[last] ??
    (last.endsWith('y') ? `${last.slice(0, -1)}ieth` : `${last}${last.endsWith('t') ? 'h' : 'th'}`)
  return [...words, said].join(' ')
}

function yearWords(year: number): string {
  const [century, rest] = [Math.floor(year / 100), year % 100]
  if (century % 10 === 0 && rest < 10) return numberWordsEn(String(year))
  const front = numberWordsEn(String(century))
  return rest === 0 ? `${front} hundred` : `${front} ${rest < 10 ? 'oh ' : ''}${numberWordsEn(String(rest))}`
}

/** "half a teaspoon", "three quarters of a cup", "one and a half cups". */
function fractionWords({ whole, over, under }: Fraction, unit: UnitWords | null): string | null {
  const part = PARTS[under]
  if (part === undefined || over < 1 || over >= under) return null
  const many = part === 'half' ? 'halves' : `${part}s`
  const parts = over === 1 ? `one ${part}` : `${numberWordsEn(String(over))} ${many}`
  if (whole !== null) {
    const said = `${numberWordsEn(whole)} and ${over === 1 && part === 'half' ? 'a half' : parts}`
    return unit === null ? said : `${said} ${unit.many}`
  }
  if (unit === null) return parts
  if (unit.one === 'inch') return `${parts} ${unit.one}`
  const article = /^(?:[aeio]|hour)/.test(unit.one) ? 'an' : 'a'
  return part === 'half' ? `half ${article} ${unit.one}` : `${parts} of ${article} ${unit.one}`
}
