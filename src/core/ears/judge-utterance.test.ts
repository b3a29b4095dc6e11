import { expect, test } from 'vitest'
import { certaintyOf, inTalk, THRESHOLDS } from './judge-utterance.ts'

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

test('what comes out of a stretch of talking has to be more certain', () => {
  const heard = { words: 'all done', score: THRESHOLDS.accept + 0.1 }
  expect(certaintyOf(heard, THRESHOLDS)).toBe('sure')
  expect(certaintyOf(heard, inTalk(THRESHOLDS))).toBe('unknown')
  expect(certaintyOf({ ...heard, score: heard.score + 1.2 }, inTalk(THRESHOLDS))).toBe('sure')
})

test('nothing valid is nothing known', () => {
  expect(certaintyOf(undefined, THRESHOLDS)).toBe('unknown')
})
