/** English number words to a value: "one hundred fifty", "one fifty", "seventy five", "point five", "one five zero". */

import { SMALL_EN, TENS_EN } from './number-words.en.ts'

const ZEROS = ['oh', 'o']

function small(word: string): number | null {
  if (ZEROS.includes(word)) return 0
  const unit = SMALL_EN.indexOf(word)
  if (unit >= 0) return unit
  const ten = word === '' ? -1 : TENS_EN.indexOf(word)
  return ten >= 0 ? ten * 10 : null
}

/** Null when the words are not wholly a number. Never guesses: "one or two" is null. */
export function parseNumberEn(words: readonly string[]): number | null {
  const [first] = words
  const isNegative = first === 'minus' || first === 'negative' || (words.length === 1 && /^-/.test(first ?? ''))
  const rest = !isNegative ? words : words.length > 1 ? words.slice(1) : [first?.slice(1) ?? '']
  const value = parsePositive(rest)
  return value === null || value === 0 || !isNegative ? value : -value
}

function parsePositive(words: readonly string[]): number | null {
  const [only] = words
  if (words.length === 1 && /^(\d+(\.\d+)?|\.\d+)$/.test(only ?? '')) return Number(only)
  // "Oh" by itself is what people say when something surprises them.
  if (words.length === 1 && ZEROS.includes(only ?? '')) return null
  const point = words.indexOf('point')
  const wholeWords = (point < 0 ? words : words.slice(0, point)).flatMap(split)
  const whole = wholeWords.length === 0 && point >= 0 ? 0 : parseWhole(wholeWords)
  if (whole === null || point < 0) return whole
  const decimals = parseDigits(words.slice(point + 1).flatMap(split))
  return decimals === null ? null : Number(`${whole}.${decimals}`)
}

/** "seventy-five" is two words; "1-2" is no number at all. */
function split(word: string): string[] {
  return /^[a-z]+-[a-z]+$/.test(word) ? word.split('-') : [word]
}

function parseDigits(words: readonly string[]): string | null {
  if (words.length === 0) return null
  const digits = words.map((word) => (/^\d$/.test(word) ? word : small(word)))
  return digits.every((digit) => digit !== null && Number(digit) < 10) ? digits.join('') : null
}

function parseWhole(words: readonly string[]): number | null {
  const [only] = words
  if (only === undefined) return null
  if (words.length === 1 && /^\d+$/.test(only)) return Number(only)
  return parseScaled(words) ?? parsePairs(words)
}

/** "two thousand one hundred and five", "a hundred", "twelve hundred fifty". */
function parseScaled(words: readonly string[]): number | null {
  const thousand = words.indexOf('thousand')
  if (thousand < 0) return parseHundreds(words, true)
  const before = words.slice(0, thousand)
  const thousands = isArticle(before) ? 1 : parseHundreds(before, false)
  if (thousands === null || thousands === 0) return null
  const rest = words.slice(thousand + 1)
  if (rest.length === 0) return thousands * 1000
  const below = parseHundreds(rest[0] === 'and' ? rest.slice(1) : rest, false)
  return below === null || below === 0 ? null : thousands * 1000 + below
}

/** Below one thousand, or with `teens` up to "nineteen hundred ninety nine". */
function parseHundreds(words: readonly string[], teens: boolean): number | null {
  const hundred = words.indexOf('hundred')
  if (hundred < 0) return parseTens(words)
  const before = words.slice(0, hundred)
  const hundreds = isArticle(before) ? 1 : parseTens(before)
  if (hundreds === null || hundreds === 0 || hundreds > 19 || (hundreds > 9 && (!teens || hundreds === 10))) return null
  const rest = words.slice(hundred + 1)
  if (rest.length === 0) return hundreds * 100
  const below = parseTens(rest[0] === 'and' ? rest.slice(1) : rest)
  return below === null || below === 0 ? null : hundreds * 100 + below
}

/** "a hundred", "a thousand". */
function isArticle(words: readonly string[]): boolean {
  return words.length === 1 && words[0] === 'a'
}

function parseTens(words: readonly string[]): number | null {
  const [first, second] = words.map(small)
  if (first === undefined || first === null || words.length > 2) return null
  if (second === undefined) return first
  return second !== null && first >= 20 && second > 0 && second < 10 ? first + second : null
}

/** "one fifty" is 150, "one five zero" is 150, "twelve fifty" is 1250. */
function parsePairs(words: readonly string[]): number | null {
  const digits = words.length >= 2 ? parseDigits(words) : null
  if (digits !== null) return Number(digits)
  const [first, ...others] = words
  const hundreds = small(first ?? '')
  const below = parseTens(others)
  return hundreds !== null && hundreds > 0 && hundreds < 20 && below !== null && below >= 10
    ? hundreds * 100 + below
    : null
}
