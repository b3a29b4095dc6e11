import fc from 'fast-check'
import { expect, test } from 'vitest'
import { parseDuration } from './duration.ts'

test.each([
  ['20 s', 20],
  ['20s', 20],
  ['5 min', 300],
  ['1.5 min', 90],
  ['2 h', 7200],
  ['1 h 30 min', 5400],
  ['1h30min', 5400],
  ['1 h 15 s', 3615],
  ['1 h 1 min 1 s', 3661],
  ['90 min', 5400],
  ['0 s', 0]
])('%s is %i seconds', (text, seconds) => {
  expect(parseDuration(text)).toBe(seconds)
})

test.each([
  '',
  ' ',
  '5',
  '5 m',
  '5 minutes',
  'min',
  'min 5',
  '5 min 3 h',
  '5 s 3 min',
  '-5 s',
  '+5 s',
  '5,5 s',
  '.5 s',
  '5. s',
  '1e3 s',
  '5  min',
  ' 5 min',
  '5 min ',
  '5 min\n',
  '5 MIN',
  '٥ s',
  '5 min 3',
  'Infinity s'
])('"%s" is no duration', (text) => {
  expect(parseDuration(text)).toBe(null)
})

test('what is written from hours, minutes and seconds is read as their sum', () => {
  fc.assert(
    fc.property(fc.nat(99), fc.nat(999), fc.nat(999), (hours, minutes, seconds) => {
      expect(parseDuration(`${hours} h ${minutes} min ${seconds} s`)).toBe(hours * 3600 + minutes * 60 + seconds)
    })
  )
})

test('a long row of digits is read in no time worth noticing', () => {
  expect(parseDuration(`${'9'.repeat(100_000)} x`)).toBe(null)
})
