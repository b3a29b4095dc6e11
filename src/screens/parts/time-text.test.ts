import { expect, test } from 'vitest'
import { agoText, leftText } from './time-text.ts'

test.each([
  [0, '0:00'],
  [1, '0:01'],
  [59_001, '1:00'],
  [245_000, '4:05'],
  [-5000, '0:00'],
  [5_999_000, '99:59'],
  [5_999_001, '1 h 40'],
  [6_000_000, '1 h 40'],
  [7_170_000, '2 h 00'],
  [7_200_000, '2 h 00'],
  [36_000_000, '10 h 00']
])('%i ms left is %s', (ms, text) => {
  expect(leftText(ms)).toBe(text)
})

test.each([
  [999, '0:00'],
  [61_999, '1:01']
])('%i ms ago is %s', (ms, text) => {
  expect(agoText(ms)).toBe(text)
})
