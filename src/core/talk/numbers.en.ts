/** English number words to a value: "one hundred fifty", "one fifty", "seventy five", "point five", "one five zero". */

const ONES = ['zero', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine']
const TEENS = ['ten', 'eleven', 'twelve', 'thirteen', 'fourteen', 'fifteen', 'sixteen', 'seventeen', 'eighteen', 'nineteen']
const TENS = ['twenty', 'thirty', 'forty', 'fifty', 'sixty', 'seventy', 'eighty', 'ninety']

function small(word: string): number | null {
  if (word === 'oh' || word === 'o') return 0
  const one = ONES.indexOf(word)
  if (one >= 0) return one
  const teen = TEENS.indexOf(word)
  if (teen >= 0) return teen + 10
  const ten = TENS.indexOf(word)
  return ten >= 0 ? (ten + 2) * 10 : null
}

/** Null when the words are not wholly a number. Never guesses: "one or two" is null. */
export function parseNumberEn(words: readonly string[]): number | null {
  const sign = words[0] === 'minus' || words[0] === 'negative' ? -1 : 1
  const rest = sign < 0 ? words.slice(1) : words
  const point = rest.findIndex((word) => word === 'point')
  const wholeWords = (point < 0 ? rest : rest.slice(0, point)).flatMap(split)
  const whole = wholeWords.length === 0 && point >= 0 ? 0 : parseWhole(wholeWords)
  if (whole === null) return null
  if (point < 0) return sign * whole
  const decimals = parseDigits(rest.slice(point + 1).flatMap(split))
  return decimals === null || !Number.isInteger(whole) ? null : sign * Number(`${whole}.${decimals}`)
}

function split(word: string): string[] {
  return word.split('-').filter((part) => part !== '')
}

function parseDigits(words: readonly string[]): string | null {
  if (words.length === 0) return null
  const digits = words.map((word) => (/^\d$/.test(word) ? word : small(word)))
  return digits.every((digit) => digit !== null && Number(digit) < 10) ? digits.join('') : null
}

function parseWhole(words: readonly string[]): number | null {
  const only = words[0]
  if (only === undefined) return null
  if (words.length === 1 && /^\d+(\.\d+)?$/.test(only)) return Number(only)
  return parseScaled(words) ?? parsePairs(words)
}

/** "two thousand one hundred and five": each part smaller than the one before. */
function parseScaled(words: readonly string[]): number | null {
  let total = 0
  let group: number | null = null
  let last = Number.POSITIVE_INFINITY
  for (const [index, word] of words.entries()) {
    if (word === 'and') {
      if (index === 0 || index === words.length - 1 || last > 1000 || last < 100) return null
      continue
    }
    if ((word === 'a' || word === 'an') && (words[index + 1] === 'hundred' || words[index + 1] === 'thousand')) {
      if (index > 0 && words[index - 1] !== 'and' && words[index - 1] !== 'thousand') return null
      group = (group ?? 0) + 1
      last = 1
      continue
    }
    if (word === 'hundred') {
      if (group === null || group < 1 || group > 9) return null
      group *= 100
      last = 100
      continue
    }
    if (word === 'thousand') {
      if (group === null || total > 0) return null
      total = group * 1000
      group = null
      last = 1000
      continue
    }
    const value = small(word)
    if (value === null) return null
    const fits = group === null || (last === 100 && value > 0) || (last >= 20 && last <= 90 && value > 0 && value < 10)
    if (!fits) return null
    group = (group ?? 0) + value
    last = value
  }
  return total + (group ?? 0)
}

/** "one fifty" is 150, "one five zero" is 150, "twelve fifty" is 1250. */
function parsePairs(words: readonly string[]): number | null {
  const values = words.map((word) => (/^\d$/.test(word) ? Number(word) : small(word)))
  if (values.some((value) => value === null)) return null
  const numbers = values as number[]
  if (numbers.every((value) => value < 10) && numbers.length >= 2) return Number(numbers.join(''))
  const [first, ...others] = numbers
  if (first === undefined || first === 0 || first > 19) return null
  const [tens, ones] = others
  if (tens === undefined || others.length > 2 || tens < 10) return null
  if (ones !== undefined && (tens < 20 || ones === 0 || ones > 9)) return null
  return first * 100 + tens + (ones ?? 0)
}
