import { expect, test } from 'vitest'
import { wordErrors } from './word-errors.ts'

// The classic pairs of letters, as words (Levenshtein distance; from memory).
test.each([
  ['k i t t e n', 's i t t i n g', 3],
  ['s a t u r d a y', 's u n d a y', 3],
  ['close the valve', 'close the valve', 0],
  ['close the valve', '', 3],
  ['', 'close it', 2],
  ['close the valve', 'please close valve', 2]
])('"%s" heard as "%s"', (said, heard, errors) => {
  const words = (text: string) => text.split(' ').filter((word) => word !== '')
  expect(wordErrors(words(said), words(heard))).toBe(errors)
})
