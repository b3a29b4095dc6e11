/** Numerals as English words for the voice: no engine has to guess how a number is read. */

/** 0 to 19, each at its own place. */
export const SMALL_EN: readonly string[] = [
  'zero',
  'one',
  'two',
  'three',
  'four',
  'five',
  'six',
  'seven',
  'eight',
  'nine',
  'ten',
  'eleven',
  'twelve',
  'thirteen',
  'fourteen',
  'fifteen',
  'sixteen',
  'seventeen',
  'eighteen',
  'nineteen'
]
/** Tens at the place of their first digit; the first two have none. */
export const TENS_EN: readonly string[] = [
  '',
  '',
  'twenty',
  'thirty',
  'forty',
  'fifty',
  'sixty',
  'seventy',
  'eighty',
  'ninety'
]

/** `1,250` is "one thousand two hundred fifty", `7.40` "seven point four zero"; a million and more is read digit by digit. */
export function numberWordsEn(numeral: string): string {
  const [whole = '', decimals] = numeral.replaceAll(',', '').split('.')
  const said = whole.length > 6 || /^0\d/.test(whole) ? digitWords(whole) : wholeWords(Number(whole))
  return decimals === undefined ? said : `${said} point ${digitWords(decimals)}`
}

function digitWords(digits: string): string {
  return Array.from(digits, (digit) => SMALL_EN[Number(digit)]).join(' ')
}

/** 0 to 999,999. */
function wholeWords(value: number): string {
  if (value < 20) return SMALL_EN[value] ?? ''
  if (value < 100) return joined(TENS_EN[Math.floor(value / 10)] ?? '', value % 10)
  if (value < 1000) return joined(`${wholeWords(Math.floor(value / 100))} hundred`, value % 100)
  return joined(`${wholeWords(Math.floor(value / 1000))} thousand`, value % 1000)
}

function joined(front: string, rest: number): string {
  return rest === 0 ? front : `${front} ${wholeWords(rest)}`
}
