import fc from 'fast-check'
import { toCardinal } from 'n2words/es-ES'
import { expect, it, test } from 'vitest'
import { numberWordsEs } from './number-words.es.ts'
import { parseNumberEs } from './numbers.es.ts'
import { tokens } from './tokens.ts'

const parse = (said: string) => parseNumberEs(tokens(said))
const unaccented = (words: string) => words.normalize('NFD').replaceAll(/\p{M}/gu, '')

it('understands every whole number below a hundred thousand as a library for numbers writes it (n2words)', () => {
  const wrong = Array.from({ length: 3000 }, (_, n) => n).filter((n) => parse(toCardinal(n)) !== n)
  expect(wrong).toEqual([])
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 99_999 }), (n) => {
      expect(parse(toCardinal(n))).toBe(n)
      expect(parse(unaccented(toCardinal(n)))).toBe(n)
    })
  )
})

it('understands its own voice, decimals too', () => {
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 9999 }), fc.integer({ min: 0, max: 99 }), (whole, hundredths) => {
      const written = `${whole}.${String(hundredths).padStart(2, '0')}`
      expect(parse(numberWordsEs(written))).toBe(Number(written))
      expect(parse(written)).toBe(Number(written))
    })
  )
})

test.each([
  ['doscientos cincuenta', 250],
  ['doscientas cincuenta', 250],
  ['ciento cincuenta', 150],
  ['cien', 100],
  ['setecientas', 700],
  ['quinientas', 500],
  ['mil', 1000],
  ['mil doscientos', 1200],
  ['siete punto cuatro', 7.4],
  ['siete coma cuatro', 7.4],
  ['siete punto veinticinco', 7.25],
  ['siete punto cero cinco', 7.05],
  ['siete y medio', 7.5],
  ['punto cinco', 0.5],
  ['uno cinco cero', 150],
  ['1 5 0', 150],
  ['treinta y cinco', 35],
  ['treinta y una', 31],
  ['veintiun', 21],
  ['veintidós', 22],
  ['diez y seis', 16],
  ['veinte y tres', 23],
  ['menos cinco', -5],
  ['-5', -5],
  ['24,5', 24.5],
  ['1,250', 1250],
  ['7.4', 7.4]
])('"%s" is %d', (said, value) => {
  expect(parse(said)).toBe(value)
})

test.each([
  'uno o dos',
  'uno cincuenta',
  'dos cincuenta',
  'diez y uno',
  'treinta y',
  'treinta y diez',
  'treinta cinco',
  'ciento',
  'cien cinco',
  'y medio',
  'mil mil',
  'un mil',
  'punto',
  'siete punto',
  'siete punto cien',
  'menos',
  'casi cien',
  '1-2',
  '1,2,3',
  ''
])('"%s" is no number', (said) => {
  expect(parse(said)).toBeNull()
})

it('never takes any other words for a number', () => {
  const words = fc.array(fc.constantFrom('la', 'es', 'grados', 'y', 'punto', 'mil', 'cien', 'otra', 'vez', 'uno'), {
    maxLength: 5
  })
  fc.assert(
    fc.property(words, (some) => {
      const value = parseNumberEs(some)
      // Whatever is taken for a number is one that the voice says in the same words, or figure by figure.
      if (value === null) return
      expect([...some].filter((word) => ['la', 'es', 'grados', 'otra', 'vez'].includes(word))).toEqual([])
      expect(value).toBeGreaterThanOrEqual(0)
    })
  )
})
