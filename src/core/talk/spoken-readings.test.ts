/** Readings and counts by voice: every way to say them, read back, and what must be asked for again. */
import fc from 'fast-check'
import { describe, expect, it, test } from 'vitest'
import { aCourse } from '../../../tests/helpers/a-procedure.ts'
import { startTalk, type Talk } from '../../../tests/helpers/spoken-script.ts'
import type { ReadingUnit } from '../procedure/procedure.ts'
import { hear, type Expecting } from './hear.ts'
import { numberWordsEn } from './number-words.en.ts'
import { speakableEn } from './spoken/english.ts'
import { vocabularyEn } from './vocabulary.en.ts'
import { wordsEn } from './words.en.ts'

const read = (what: string, unit: string, limits: string) =>
  `read: {question: What is it?, reading: ${what}, unit: ${unit}, ${limits}, source: Ours, if not: [Mix.]}`
const course = (check: string) =>
  aCourse(
    `  - {stage: A, steps: [{step: one, on: left, say: Look at it., hands: 5 s, ${check}}]}`,
    'parts: [{id: seal, name: Seal, per: side, count: 11, care: grease}]'
  )
const PPM = course(read('strength', 'ppm', 'at least: 100'))
const CELSIUS = course(read('temperature', 'C', 'at least: 24'))
const PH = course(read('ph', 'pH', 'at most: 8'))
const COUNT = course('count: {question: How many?, parts: [seal], if not: [Find it.]}')

const NUMBERS: Expecting = { course: PPM, language: 'en', phrase: null, numbers: true, steps: false, yesNo: false }
function heard(words: string): readonly [value: number, unit: ReadingUnit | null] | null {
  const hearing = hear([words], vocabularyEn, NUMBERS)
  return hearing.kind === 'meant' && hearing.intent.type === 'number'
    ? [hearing.intent.value, hearing.intent.unit]
    : null
}

/** What comes of words while a check is open: what was said last, and what is on record. */
function after(talk: Talk, ...words: readonly string[]): { readonly said: string; readonly recorded: unknown } {
  talk.open()
  for (const each of words) talk.hearWords(each)
  const answers = talk.events().flatMap((event) => (event.type === 'check-answered' ? [event.answer] : []))
  return { said: talk.transcript().at(-1) ?? '', recorded: answers.at(-1) ?? null }
}

describe('whole numbers up to two thousand', () => {
  it('are understood with each name of their unit', () => {
    const UNITS = ['ppm', 'p p m', 'p.p.m.', 'parts per million', 'milligrams per liter', 'mg/L']
    for (let n = 0; n <= 2000; n += 1) {
      const unit = UNITS[n % UNITS.length] ?? ''
      const said = n % 2 === 0 ? `${n} ${unit}` : `${numberWordsEn(String(n))} ${unit}`
      expect(heard(said), said).toEqual([n, '[ppm]'])
    }
  })

  it('come back the same when they are read back', () => {
    for (let n = 0; n <= 2000; n += 1) {
      const spoken = speakableEn(wordsEn.readBack(`${n} ppm`)).replace(/\. Is that so\?$/, '')
      expect(heard(spoken), spoken).toEqual([n, '[ppm]'])
    }
  })
})

it('understands decimals and signs with each name of their unit', () => {
  const UNITS = [
    ['degrees', null],
    ['degrees celsius', 'Cel'],
    ['degrees c', 'Cel'],
    ['c', 'Cel'],
    ['°C', 'Cel'],
    ['degrees fahrenheit', '[degF]'],
    ['f', '[degF]'],
    ['°F', '[degF]']
  ] as const
  fc.assert(
    fc.property(
      fc.integer({ min: -400, max: 9999 }),
      fc.constantFrom(...UNITS),
      fc.boolean(),
      (tenths, [name, unit], isWritten) => {
        const numeral = String(Math.abs(tenths) / 10)
        const sign = tenths < 0 ? 'minus ' : ''
        const isDigits = isWritten || name.startsWith('°')
        const said = `${sign}${isDigits ? numeral : numberWordsEn(numeral)} ${name}`
        expect(heard(said), said).toEqual([tenths / 10, unit])
      }
    )
  )
})

test.each([
  ['one hundred fifty', 150, null],
  ['one fifty', 150, null],
  ['a hundred and fifty p p m', 150, '[ppm]'],
  ["it's one fifty", 150, null],
  ['it reads one five oh', 150, null],
  ['i read one five zero parts per million', 150, '[ppm]'],
  ['seventy five degrees', 75, null],
  ['seventy-five degrees', 75, null],
  ['point five', 0.5, null],
  ['zero point five', 0.5, null],
  ['seven point oh five', 7.05, null],
  ['p h seven point four', 7.4, '[pH]'],
  ['seven point four p h', 7.4, '[pH]'],
  ['minus eighteen', -18, null],
  ['eleven off', 11, null],
  ['eleven on', 11, null],
  ['eleven pieces', 11, null],
  ['there are eleven of them', 11, null],
  ['um, eleven, please', 11, null]
] as const)('"%s" is %d %s', (said, value, unit) => {
  expect(heard(said)).toEqual([value, unit])
})

describe('what recognisers make of numbers, and what is no number', () => {
  // From memory: homophones and clipped forms; no source.
  const MISHEARD = [
    ...['won fifty', 'one fitty', 'one fif', 'to hundred', 'too hundred', 'for hundred', 'fore fifty', 'ate', 'tree'],
    ...[
      'hundred',
      'hundred fifty',
      'hundred and fifty',
      'thousand',
      'one hundred and',
      'one fifty and',
      'fifty hundred'
    ],
    ...[
      'fifty one hundred',
      'twenty thirty',
      'one fifty two hundred',
      'fifteen fifty five zero',
      'one hundred one fifty'
    ],
    ...['one or two hundred', 'one fifty or one sixty', 'fifty to sixty', 'between fifty and sixty', 'about fifty'],
    ...['almost one fifty', 'over two hundred', 'a couple of hundred', 'a bit less than fifty', 'not fifty'],
    ...['1 50', '15 50', '100 50', '100-200', '100/200', '1:50', '1,50', '7,5', '1.5.0', '150 ppm 200', '--150'],
    ...['point', 'five point', 'point point five', 'seven point fifteen', 'seven dot five', 'seven comma five'],
    ...['seven and a half', 'one half', 'half', 'double five', 'a dozen', 'a fifty', 'none', 'nothing', 'oh', 'o'],
    ...[
      'ppm',
      'degrees',
      'parts per million',
      'fifty parts per',
      'fifty per million',
      'fifty percent',
      'fifty gallons'
    ],
    ...['fifty p m', 'fifty b p m', 'fifty ppb', 'fifty kelvin', 'fifty degrees degrees', 'ph', 'p h of']
  ]

  test.each(MISHEARD)('"%s" is asked for again, and nothing is recorded', (said) => {
    expect(heard(said)).toBe(null)
    expect(after(startTalk(PPM), said)).toEqual({ said: 'Sidecall: What is the number?', recorded: null })
  })
})

describe('a number that was heard', () => {
  test.each([
    ['fifteen', 'fifty'],
    ['one thirteen', 'one thirty'],
    ['one nineteen', 'one ninety'],
    ['one sixty', 'one sixteen']
  ])('is read back before it counts: "%s" is not "%s"', (said, meant) => {
    const [value] = heard(said) ?? []
    const talk = startTalk(PPM)
    expect(after(talk, said)).toEqual({ said: `Sidecall: ${value} ppm. Is that so?`, recorded: null })
    expect(after(talk, 'no')).toEqual({ said: 'Sidecall: What is the number?', recorded: null })
    const [right] = heard(meant) ?? []
    after(talk, meant, 'yes')
    expect(talk.events().flatMap((event) => (event.type === 'check-answered' ? [event.answer] : []))).toEqual([
      { kind: 'reading', value: right, unit: '[ppm]' }
    ])
  })

  it('is not taken for yes or for a side while it waits for one', () => {
    const talk = startTalk(PPM)
    expect(after(talk, 'one fifty', 'fifty')).toEqual({ said: 'Sidecall: 50 ppm. Is that so?', recorded: null })
  })
})

describe('what cannot be', () => {
  test.each([
    [PPM, 'minus fifty', '-50 ppm'],
    [PPM, 'twenty thousand', '20000 ppm'],
    [CELSIUS, 'one hundred one', '101 °C'],
    [CELSIUS, 'nine hundred degrees', '900 °C'],
    [CELSIUS, 'minus sixty one', '-61 °C'],
    [PH, 'seventy four', '74 pH'],
    [PH, 'fourteen point one', '14.1 pH'],
    [PH, 'minus one', '-1 pH'],
    [COUNT, 'one hundred eleven', '111'],
    [COUNT, 'thirty four', '34']
  ])('is asked for again (%#: %s)', (open, said, shown) => {
    const expected = { said: `Sidecall: ${shown} cannot be. What is the number?`, recorded: null }
    expect(after(startTalk(open), said)).toEqual(expected)
    expect(after(startTalk(open), said, 'yes').recorded).toBe(null)
  })

  test.each([
    [PPM, 'zero', '0 ppm'],
    [PPM, 'ten thousand', '10000 ppm'],
    [CELSIUS, 'one hundred', '100 °C'],
    [PH, 'fourteen', '14 pH'],
    [PH, 'zero', '0 pH'],
    [COUNT, 'thirty three', '33'],
    [COUNT, 'zero', '0']
  ])('ends where it could be (%#: %s)', (open, said, shown) => {
    expect(after(startTalk(open), said).said).toBe(`Sidecall: ${shown}. Is that so?`)
  })

  it('is asked for again when it was typed, too', () => {
    const talk = startTalk(PH)
    talk.open()
    talk.intend({ type: 'answer', answer: { kind: 'reading', value: 75, unit: '[pH]' } })
    expect(talk.transcript().at(-1)).toBe('Sidecall: 75 pH cannot be. What is the number?')
    expect(talk.events().some(({ type }) => type === 'check-answered')).toBe(false)
  })
})

test('a unit that was not asked for is asked about', () => {
  expect(after(startTalk(CELSIUS), 'seventy five p p m')).toEqual({
    said: 'Sidecall: I need it in °C.',
    recorded: null
  })
})

test('a temperature may be read in its other scale, and is kept as it was read', () => {
  const talk = startTalk(CELSIUS)
  expect(after(talk, 'seventy five degrees fahrenheit').said).toBe('Sidecall: 75 °F. Is that so?')
  talk.hearWords('yes')
  const answers = talk.events().flatMap((event) => (event.type === 'check-answered' ? [event.answer] : []))
  expect(answers).toEqual([{ kind: 'reading', value: 75, unit: '[degF]' }])
})
