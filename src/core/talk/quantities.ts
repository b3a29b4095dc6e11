/** Amounts written `{7.6 L | 2 gal}` in the system the operator works in, and amounts as words for the voice. */
import { numberWordsEn } from './number-words.en.ts'

export type UnitSystem = 'metric' | 'us'

export function inUnits(text: string, system: UnitSystem): string {
  return text.replaceAll(/\{([^{}|]+)\|([^{}|]+)\}/g, (_, metric: string, us: string) =>
    (system === 'metric' ? metric : us).trim()
  )
}

interface UnitWords {
  readonly one: string
  readonly many: string
}

/** Names as NIST Handbook 44, Appendix C spells them (liter, gallon, fluid ounce, degree Celsius); from memory. */
const UNITS: Readonly<Record<string, UnitWords>> = {
  'fl oz': { one: 'fluid ounce', many: 'fluid ounces' },
  gal: { one: 'gallon', many: 'gallons' },
  qt: { one: 'quart', many: 'quarts' },
  pt: { one: 'pint', many: 'pints' },
  cups: { one: 'cup', many: 'cups' },
  cup: { one: 'cup', many: 'cups' },
  tbsp: { one: 'tablespoon', many: 'tablespoons' },
  tsp: { one: 'teaspoon', many: 'teaspoons' },
  oz: { one: 'ounce', many: 'ounces' },
  lb: { one: 'pound', many: 'pounds' },
  kg: { one: 'kilogram', many: 'kilograms' },
  g: { one: 'gram', many: 'grams' },
  mg: { one: 'milligram', many: 'milligrams' },
  'mg/L': { one: 'milligram per liter', many: 'milligrams per liter' },
  'mL/L': { one: 'milliliter per liter', many: 'milliliters per liter' },
  mL: { one: 'milliliter', many: 'milliliters' },
  ml: { one: 'milliliter', many: 'milliliters' },
  L: { one: 'liter', many: 'liters' },
  l: { one: 'liter', many: 'liters' },
  '°C': { one: 'degree Celsius', many: 'degrees Celsius' },
  '°F': { one: 'degree Fahrenheit', many: 'degrees Fahrenheit' },
  C: { one: 'degree Celsius', many: 'degrees Celsius' },
  F: { one: 'degree Fahrenheit', many: 'degrees Fahrenheit' },
  '°': { one: 'degree', many: 'degrees' },
  ppm: { one: 'part per million', many: 'parts per million' },
  pH: { one: 'p H', many: 'p H' },
  psi: { one: 'pound per square inch', many: 'pounds per square inch' },
  h: { one: 'hour', many: 'hours' },
  min: { one: 'minute', many: 'minutes' },
  s: { one: 'second', many: 'seconds' },
  mm: { one: 'millimeter', many: 'millimeters' },
  cm: { one: 'centimeter', many: 'centimeters' },
  m: { one: 'meter', many: 'meters' },
  '%': { one: 'percent', many: 'percent' }
}

/** Longest first: "mL" must not be read as meters. */
const UNIT = Object.keys(UNITS)
  .sort((a, b) => b.length - a.length)
  .join('|')
const NUMERAL = String.raw`\d+(?:,\d{3})*(?:\.\d+)?`
/** Not inside a word, a code, a time of day or a date. */
const BEFORE = String.raw`(?<![\w./:,-])`
const AFTER = String.raw`(?![\w/:]|[.,]\d)`

const FRACTION = new RegExp(String.raw`${BEFORE}(?:(\d+) )?(\d+)\/(2|3|4|8|16)(?: ?(${UNIT}))?${AFTER}`, 'g')
const AMOUNT = new RegExp(
  String.raw`${BEFORE}([-−]?)(${NUMERAL})(?:(?: to ([-−]?)| ?[-–] ?)(${NUMERAL}))?(?: ?(${UNIT}))?${AFTER}`,
  'g'
)
const UNIT_ALONE = /(?<!\w)(ppm|mg\/L|psi|°C|°F)(?!\w)/g

const PARTS: Readonly<Record<string, string>> = { 2: 'half', 3: 'third', 4: 'quarter', 8: 'eighth', 16: 'sixteenth' }
const SIGNS: Readonly<Record<string, string>> = {
  '½': '1/2',
  '¼': '1/4',
  '¾': '3/4',
  '⅓': '1/3',
  '⅔': '2/3',
  '⅛': '1/8'
}

/** Numbers, fractions and units become words, so that no engine has to guess them. */
export function speakable(text: string): string {
  return text
    .replaceAll(/(?:(\d) ?)?([½¼¾⅓⅔⅛])/g, (_, whole = '', sign: string) => `${whole} ${SIGNS[sign]}`.trim())
    .replaceAll(FRACTION, fractionWords)
    .replaceAll(AMOUNT, amountWords)
    .replaceAll(UNIT_ALONE, (unit) => UNITS[unit]?.many ?? unit)
    .replaceAll(/\bpH\b/g, 'p H')
}

function amountWords(
  _: string,
  minus: string,
  first: string,
  secondMinus: string | undefined,
  second: string | undefined,
  unit: string | undefined
): string {
  const number = (sign: string | undefined, numeral: string) => `${sign ? 'minus ' : ''}${numberWordsEn(numeral)}`
  const said = second === undefined ? number(minus, first) : `${number(minus, first)} to ${number(secondMinus, second)}`
  return unit === undefined ? said : `${said} ${unitWords(unit, second === undefined && first === '1')}`
}

/** "half a teaspoon", "three quarters of a cup", "one and a half cups". */
function fractionWords(
  written: string,
  whole: string | undefined,
  over: string,
  under: string,
  unit: string | undefined
): string {
  if (Number(over) < 1 || Number(over) >= Number(under)) return written
  const part = PARTS[under] ?? ''
  const many = part === 'half' ? 'halves' : `${part}s`
  const parts = over === '1' ? `one ${part}` : `${numberWordsEn(over)} ${many}`
  if (whole !== undefined) {
    const said = `${numberWordsEn(whole)} and ${over === '1' && part === 'half' ? 'a half' : parts}`
    return unit === undefined ? said : `${said} ${unitWords(unit, false)}`
  }
  if (unit === undefined) return parts
  const name = unitWords(unit, true)
  const article = /^(?:[aeio]|hour)/.test(name) ? 'an' : 'a'
  return part === 'half' ? `half ${article} ${name}` : `${parts} of ${article} ${name}`
}

function unitWords(unit: string, isOne: boolean): string {
  const words = UNITS[unit]
  return (isOne ? words?.one : words?.many) ?? unit
}
