import fc from 'fast-check'
import { describe, expect, it, test } from 'vitest'
import { numberWordsEn } from './number-words.en.ts'
import { parseNumberEn } from './numbers.en.ts'
import { tokens } from './tokens.ts'

const parse = (said: string) => parseNumberEn(tokens(said))

/**
 * The grammar of English cardinals, written out a second time and the other way round: every way to say a number.
 * From memory; "and" is usual in British English and left out in American English.
 */
const ONES = ['', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine']
const TEENS = 'ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen'.split(' ')
const TENS = ['', '', 'twenty', 'thirty', 'forty', 'fifty', 'sixty', 'seventy', 'eighty', 'ninety']
const DIGITS = ['zero', ...ONES.slice(1)]

function belowHundred(n: number): string[] {
  if (n < 10) return [ONES[n] ?? '']
  if (n < 20) return [TEENS[n - 10] ?? '']
  const [tens, ones] = [TENS[Math.floor(n / 10)] ?? '', ONES[n % 10] ?? '']
  return ones === '' ? [tens] : [`${tens} ${ones}`, `${tens}-${ones}`]
}

/** "one hundred fifty", "one hundred and fifty", "a hundred and fifty". */
function scaled(n: number): string[] {
  if (n === 0) return ['zero']
  if (n < 100) return belowHundred(n)
  const [size, name] = n < 1000 ? ([100, 'hundred'] as const) : ([1000, 'thousand'] as const)
  const [count, rest] = [Math.floor(n / size), n % size]
  const heads = [...scaled(count).map((words) => `${words} ${name}`), ...(count === 1 ? [`a ${name}`] : [])]
  if (rest === 0) return heads
  const tails = rest < 100 ? belowHundred(rest).flatMap((words) => [words, `and ${words}`]) : scaled(rest)
  return heads.flatMap((head) => tails.map((tail) => `${head} ${tail}`))
}

/** "one fifty", "twelve fifty", and "twelve hundred fifty". */
function paired(n: number): string[] {
  const [front, rest] = [Math.floor(n / 100), n % 100]
  if (front < 1 || front > 19) return []
  const pairs =
    rest >= 10 ? belowHundred(front).flatMap((head) => belowHundred(rest).map((tail) => `${head} ${tail}`)) : []
  if (front < 11) return pairs
  const hundreds = `${TEENS[front - 10]} hundred`
  return [
    ...pairs,
    ...(rest === 0
      ? [hundreds]
      : belowHundred(rest).flatMap((tail) => [`${hundreds} ${tail}`, `${hundreds} and ${tail}`]))
  ]
}

function digitByDigit(n: number): string[] {
  const digits = Array.from(String(n), Number)
  if (digits.length < 2) return []
  const words = digits.map((digit) => DIGITS[digit]).join(' ')
  return [words, words.replaceAll('zero', 'oh'), digits.join(' ')]
}

function everyWay(n: number): string[] {
  return [...scaled(n), ...paired(n), ...digitByDigit(n), String(n), ...(n >= 1000 ? [n.toLocaleString('en-US')] : [])]
}

it('understands every way to say every whole number up to two thousand', () => {
  let ways = 0
  for (let n = 0; n <= 2000; n += 1) {
    for (const said of everyWay(n)) {
      ways += 1
      expect(parse(said), said).toBe(n)
    }
  }
  expect(ways).toBeGreaterThan(20_000)
})

it('writes numbers out in words that it understands', () => {
  fc.assert(
    fc.property(fc.nat(999_999), (n) => {
      expect(parse(numberWordsEn(String(n)))).toBe(n)
    })
  )
  fc.assert(
    fc.property(fc.nat(2000), fc.stringMatching(/^\d{1,3}$/), (n, decimals) => {
      expect(parse(numberWordsEn(`${n}.${decimals}`))).toBe(Number(`${n}.${decimals}`))
    })
  )
})

test.each([
  ['seven point four', 7.4],
  ['seven point oh five', 7.05],
  ['ten point two five', 10.25],
  ['point five', 0.5],
  ['zero point five', 0.5],
  ['one hundred fifty point five', 150.5],
  ['7.4', 7.4],
  ['.5', 0.5],
  ['7 point 4', 7.4],
  ['minus five', -5],
  ['negative eighteen', -18],
  ['minus eighteen point five', -18.5],
  ['-18', -18],
  ['−18', -18],
  ['-18.5', -18.5],
  ['minus 18.5', -18.5],
  ['minus zero', 0],
  ['1,000', 1000],
  ['12,500', 12_500],
  ['twenty thousand', 20_000],
  ['one hundred thousand', 100_000],
  ['a thousand', 1000],
  ['nineteen hundred ninety nine', 1999]
])('"%s" is %d', (said, value) => {
  expect(parse(said)).toBe(value)
})

describe('what is not wholly one number', () => {
  test.each([
    '',
    'and',
    'five and',
    'and five',
    'one or two',
    'one to two',
    '1-2',
    '100-200',
    '1/2',
    '1:50',
    '7,5',
    '1,50',
    '1,2,3',
    'one half',
    'seven and a half',
    'fifty one hundred',
    'twenty thirty',
    'thirty ten',
    'ten ten ten',
    'one hundred hundred',
    'hundred',
    'hundred fifty',
    'thousand',
    'a',
    'a five',
    'a fifty',
    'an hundred',
    'a hundred a',
    'zero hundred',
    'zero thousand',
    'ten hundred',
    'twenty hundred',
    'one hundred zero',
    'one thousand zero',
    'one hundred and',
    'one hundred and and five',
    'one hundred and a thousand',
    'one thousand thousand',
    'one thousand eleven hundred',
    'five thousand two thousand',
    'twenty zero',
    'twenty eleven',
    'one hundred fifty fifteen',
    'fifteen five',
    'one twenty three four',
    'twenty one fifty',
    'oh',
    'o',
    'point',
    'five point',
    'five point twelve',
    'five point five point five',
    '1.5 point 5',
    'minus',
    'minus minus five',
    'minus -5',
    '--5',
    '5-',
    'five done',
    'about five',
    'five parts',
    'fivety',
    'to',
    'for',
    'constructor',
    '٥'
  ])('"%s"', (said) => {
    expect(parse(said)).toBe(null)
  })

  it('stays nothing when a word that belongs to no number joins one', () => {
    const strangers = ['or', 'done', 'to', 'maybe', 'percent', 'left', 'half', 'no']
    fc.assert(
      fc.property(fc.nat(2000), fc.constantFrom(...strangers), fc.nat(9), (n, stranger, place) => {
        const words = numberWordsEn(String(n)).split(' ')
        words.splice(place % (words.length + 1), 0, stranger)
        expect(parseNumberEn(words)).toBe(null)
      })
    )
  })
})
