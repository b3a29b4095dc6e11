import { expect, test } from 'vitest'
import { isEcho } from './echo.ts'
import { speakableEn } from './spoken/english.ts'

const WRITTEN = 'Left. Mixing time begins: 5 minutes. Right. Fill the hopper with 7.6 L.'
const SAID = `${WRITTEN} ${speakableEn(WRITTEN)}`

test.each([
  ['fill the hopper', true],
  ['left mixing time begins five minutes', true],
  ['mixing time begins 5 minutes', true],
  ['with seven point six liters', true],
  ['the hopper is full', false],
  ['all done', false],
  ['say again', false],
  ['how long', false],
  // A single word is too little to tell from an answer.
  ['left', false],
  ['', false]
])('"%s" is the voice coming back: %s', (heard, expected) => {
  expect(isEcho(heard, SAID)).toBe(expected)
})

test('nothing said, nothing comes back', () => {
  expect(isEcho('all done', '')).toBe(false)
})
