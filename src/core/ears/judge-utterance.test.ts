import { expect, test } from 'vitest'
import { certaintyOf, THRESHOLDS } from './judge-utterance.ts'

test.each([
  ['all done', THRESHOLDS.ask - 0.1, 'unknown'],
  ['all done', THRESHOLDS.ask, 'unsure'],
  ['all done', THRESHOLDS.accept, 'sure'],
  ['all done', THRESHOLDS.sure, 'early'],
  ['done', THRESHOLDS.accept + 0.5, 'unsure'],
  ['done', THRESHOLDS.accept + 1, 'sure']
])('%s with a score of %d is %s', (words, score, certainty) => {
  expect(certaintyOf({ words, score }, THRESHOLDS)).toBe(certainty)
})

test('nothing valid is nothing known', () => {
  expect(certaintyOf(undefined, THRESHOLDS)).toBe('unknown')
})
