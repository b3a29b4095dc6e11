import { expect, test } from 'vitest'
import { afterAttention } from './attention.ts'
import { vocabularyEn } from './vocabulary.en.ts'

test.each([
  ['Hello Sidecall.', ''],
  ['hello side call', ''],
  ['Hello, Sidecall. All done!', 'all done'],
  ['Hey side call, say again', 'say again'],
  ['sidecall how long', 'how long'],
  ['all done', null],
  ['hello', null],
  ['hello there', null],
  ['all done hello sidecall', null],
  ['', null]
])('"%s" leaves %j', (said, left) => {
  expect(afterAttention(said, vocabularyEn.attention)).toBe(left)
})
