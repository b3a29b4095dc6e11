/** Spanish number words to a value: "ciento cincuenta", "siete punto cuatro", "siete coma veinticinco", "uno cinco cero". */
import { HUNDREDS_ES, SMALL_ES, TENS_ES } from './number-words.es.ts'
import { tokens } from './tokens.ts'

const plain = (words: readonly string[]) => words.map((word) => tokens(word).join(' '))
const SMALL = plain(SMALL_ES)
const TENS = plain(TENS_ES)
const HUNDREDS = plain(HUNDREDS_ES)
const POINTS = ['punto', 'coma']
/** Before a noun, and with its gender: "un grado", "veintiuna partes". */
const ONES: Readonly<Record<string, number>> = { un: 1, una: 1, veintiun: 21, veintiuna: 21 }

/** Null when the words are not wholly a number. Never guesses: "uno o dos" is null, and "uno cincuenta" too. */
export function parseNumberEs(words: readonly string[]): number | null {
  const [first] = words
  const isNegative = first === 'menos' || (words.length === 1 && /^-/.test(first ?? ''))
  const rest = !isNegative ? words : words.length > 1 ? words.slice(1) : [first?.slice(1) ?? '']
  const value = parsePositive(rest)
  return value === null || value === 0 || !isNegative ? value : -value
}

function parsePositive(words: readonly string[]): number | null {
  const [only = ''] = words
  if (words.length === 1 && /^(\d+([.,]\d+)?|[.,]\d+)$/.test(only)) return Number(only.replace(',', '.'))
  if (words.length > 2 && words.at(-2) === 'y' && ['medio', 'media'].includes(words.at(-1) ?? '')) {
    const whole = parseWhole(words.slice(0, -2))
    return whole === null ? null : whole + 0.5
  }
  const point = words.findIndex((word) => POINTS.includes(word))
  const whole = point === 0 ? 0 : parseWhole(point < 0 ? words : words.slice(0, point))
  if (whole === null || point < 0) return whole
  const decimals = parseDecimals(words.slice(point + 1))
  return decimals === null ? null : Number(`${whole}.${decimals}`)
}

/** "cuatro", "cero cinco", and "veinticinco", which is how two decimals are mostly said. */
function parseDecimals(words: readonly string[]): string | null {
  const digits = parseDigits(words)
  if (digits !== null) return digits
  const two = below100(words)
  return two !== null && two >= 10 ? String(two) : null
}

function parseDigits(words: readonly string[]): string | null {
  if (words.length === 0) return null
  const digits = words.map((word) => (/^\d$/.test(word) ? Number(word) : small(word)))
  return digits.every((digit) => digit !== null && digit < 10) ? digits.join('') : null
}

function parseWhole(words: readonly string[]): number | null {
  const [only = ''] = words
  if (words.length === 1 && /^\d+$/.test(only)) return Number(only)
  const digits = words.length > 1 ? parseDigits(words) : null
  return digits === null ? parseThousands(words) : Number(digits)
}

/** "mil doscientos", "dos mil ciento cinco". */
function parseThousands(words: readonly string[]): number | null {
  const at = words.indexOf('mil')
  if (at < 0) return below1000(words)
  const thousands = at === 0 ? 1 : below1000(words.slice(0, at))
  if (thousands === null || thousands === 0 || (thousands === 1 && at > 0)) return null
  const rest = words.slice(at + 1)
  if (rest.length === 0) return thousands * 1000
  const below = below1000(rest)
  return below === null || below === 0 ? null : thousands * 1000 + below
}

function below1000(words: readonly string[]): number | null {
  const [first = '', ...rest] = words
  if (first === 'cien') return rest.length === 0 ? 100 : null
  const hundreds = first === '' ? -1 : HUNDREDS.indexOf(first.replace(/as$/, 'os'))
  if (hundreds < 1) return below100(words)
  if (rest.length === 0) return first === 'ciento' ? null : hundreds * 100
  const below = below100(rest)
  return below === null || below === 0 ? null : hundreds * 100 + below
}

/** "treinta y cinco"; "diez y seis" and "veinte y uno" as some still say them. */
function below100(words: readonly string[]): number | null {
  const [first = '', and, last = ''] = words
  if (words.length === 1) return small(first)
  const ten = TENS.indexOf(first)
  const tens = first === 'diez' ? 1 : first !== '' && ten > 1 ? ten : null
  const one = small(last)
  if (words.length !== 3 || and !== 'y' || tens === null || one === null || one < 1 || one > 9) return null
  return tens === 1 && one < 6 ? null : tens * 10 + one
}

function small(word: string): number | null {
  const unit = SMALL.indexOf(word)
  if (unit >= 0) return unit
  if (Object.hasOwn(ONES, word)) return ONES[word] ?? null
  const ten = word === '' ? -1 : TENS.indexOf(word)
  return ten > 1 ? ten * 10 : null
}
