import fc from 'fast-check'
import { expect, test } from 'vitest'
import { splitForSpeech } from './split-for-speech.ts'

test('a short text stays whole', () => {
  expect(splitForSpeech('Left. Close the draw valve.')).toEqual(['Left. Close the draw valve.'])
})

test('nothing to say is no piece', () => {
  expect(splitForSpeech('  \n ')).toEqual([])
})

test('cuts between sentences and joins short ones', () => {
  expect(splitForSpeech('One two. Three four. Five six seven.', 20)).toEqual([
    'One two. Three four.',
    'Five six seven.'
  ])
})

test('does not cut a decimal number or a time', () => {
  expect(splitForSpeech('Use 7.6 litres at 49.5 degrees now. Wait.', 36)).toEqual([
    'Use 7.6 litres at 49.5 degrees now.',
    'Wait.'
  ])
})

test('cuts a long sentence at its pauses, then between words, then inside a word', () => {
  expect(splitForSpeech('take the gasket, turn it over, look at it', 24)).toEqual([
    'take the gasket,',
    'turn it over, look at it'
  ])
  expect(splitForSpeech('one two three four', 9)).toEqual(['one two', 'three', 'four'])
  expect(splitForSpeech('abcdefgh', 3)).toEqual(['abc', 'def', 'gh'])
})

test('loses no letter, changes no order, and keeps to the limit', () => {
  const words = fc.array(fc.constantFrom('left', 'valve.', 'rinse,', '7.6', '¿Qué?', 'é'.repeat(30), '…', '  '), {
    maxLength: 60
  })
  fc.assert(
    fc.property(words, fc.integer({ min: 5, max: 150 }), (all, limit) => {
      const text = all.join(' ')
      const pieces = splitForSpeech(text, limit)
      expect(pieces.join('').replace(/\s/gu, '')).toBe(text.replace(/\s/gu, ''))
      expect(pieces.every((piece) => piece.length <= limit && piece === piece.trim() && piece !== '')).toBe(true)
    })
  )
})
