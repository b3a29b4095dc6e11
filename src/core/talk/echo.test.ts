import { describe, expect, test } from 'vitest'
import { isEcho } from './echo.ts'
import { speakableEn } from './spoken/english.ts'
import { wordsEn } from './words.en.ts'

const both = (written: string) => [written, speakableEn(written)]

test.each([
  ['fill the hopper', true],
  ['right fill the hopper with seven point six liters', true],
  ['hopper with 7.6 l', true],
  ['with seven point six liters', true],
  // A recogniser hears one word wrong.
  ['with seven point nine liters', true],
  ['the hopper is full', false],
  ['all done', false],
  ['say again', false],
  ['how long', false],
  // Said too long before to be still on its way.
  ['left mixing time begins five minutes', false],
  // A single word is too little to tell from an answer.
  ['left', false],
  ['', false]
])('"%s" is the voice coming back: %s', (heard, expected) => {
  expect(isEcho(heard, both('Left. Mixing time begins: 5 minutes. Right. Fill the hopper with 7.6 L.'))).toBe(expected)
})

describe('an operator who answers at once is no echo', () => {
  test.each([
    ['hold on', 'Hold the lid and put the pail on.'],
    ['go back', 'Go to the sink and put the tray back.'],
    ['hands are clear', wordsEn.confirmHint('hands are clear')],
    ['all done', wordsEn.help(['all done', 'say again', 'tell me more', 'hold on'])]
  ])('"%s" after "%s"', (heard, said) => {
    expect(isEcho(heard, both(said))).toBe(false)
  })
})

test('nothing said, nothing comes back', () => {
  expect(isEcho('all done', [])).toBe(false)
})
