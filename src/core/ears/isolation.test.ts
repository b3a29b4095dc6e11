import { expect, test } from 'vitest'
import { isolation } from './isolation.ts'

test('the first utterance and one after a pause stand alone', () => {
  const talk = isolation()
  expect(talk.alone({ start: 10, end: 60 })).toBe(true)
  talk.note({ start: 10, end: 60 })
  expect(talk.alone({ start: 119, end: 160 })).toBe(false)
  expect(talk.alone({ start: 120, end: 160 })).toBe(true)
})

test('out of a long stretch of talking nothing stands alone for a while', () => {
  const talk = isolation()
  talk.note({ start: 0, end: 200 })
  expect(talk.alone({ start: 270, end: 320 })).toBe(false)
  expect(talk.alone({ start: 400, end: 450 })).toBe(true)
})
