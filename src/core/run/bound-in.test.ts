import fc from 'fast-check'
import { expect, test } from 'vitest'
import { inUnit } from '../sanitizer/temperature.ts'
import { boundIn, otherScale } from './bound-in.ts'

/** FDA Food Code 2022: 3-401.11, 3-501.14, 3-501.16, 4-501.19, 4-501.112 and 4-501.114, as paired there. */
const PAIRED_THERE = [
  [5, 41],
  [57, 135],
  [63, 145],
  [68, 155],
  [74, 165],
  [43, 110],
  [77, 171],
  [82, 180],
  [13, 55],
  [24, 75],
  [38, 100],
  [49, 120],
  [21, 70]
] as const

test.each(PAIRED_THERE)('%i °C and %i °F are one limit', (celsius, fahrenheit) => {
  expect(boundIn({ unit: 'Cel', min: celsius, max: celsius }, '[degF]')).toEqual({
    unit: '[degF]',
    min: fahrenheit,
    max: fahrenheit
  })
  expect(boundIn({ unit: '[degF]', min: fahrenheit, max: fahrenheit }, 'Cel')).toEqual({
    unit: 'Cel',
    min: celsius,
    max: celsius
  })
})

test('every other limit is a whole degree on the safe side, and less than one degree away', () => {
  const isPaired = (value: number) => PAIRED_THERE.some(([celsius]) => celsius === value) || value === 7
  const limits = fc.integer({ min: -200, max: 1000 }).map((tenths) => tenths / 10)
  fc.assert(
    fc.property(
      limits.filter((value) => !isPaired(value)),
      (value) => {
        const exact = inUnit({ value, unit: 'C' }, 'F')
        const bound = boundIn({ unit: 'Cel', min: value, max: value }, '[degF]')
        const [min, max] = [bound?.min ?? Number.NaN, bound?.max ?? Number.NaN]
        expect(Number.isInteger(min) && Number.isInteger(max)).toBe(true)
        expect(min - exact).toBeGreaterThan(-1e-6)
        expect(exact - max).toBeGreaterThan(-1e-6)
        expect(Math.max(min - exact, exact - max)).toBeLessThan(1)
      }
    )
  )
})

test('what is no temperature has one unit only', () => {
  const strength = { unit: '[ppm]', min: 100, max: 200 } as const
  expect(boundIn(strength, '[ppm]')).toEqual(strength)
  expect(boundIn(strength, '[degF]')).toBeNull()
  expect(otherScale('[ppm]')).toBeNull()
  expect(otherScale('[pH]')).toBeNull()
})
