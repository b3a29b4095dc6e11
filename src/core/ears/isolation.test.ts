import { expect, test } from 'vitest'
import { isolation } from './isolation.ts'

test('the first utterance and one after a pause stand alone', () => {
  const talk = isolation()
  expect(talk.alone({ start: 10, end: 60, power: 1 })).toBe(true)
  talk.note({ start: 10, end: 60, power: 1 })
  expect(talk.alone({ start: 119, end: 160, power: 1 })).toBe(false)
  expect(talk.alone({ start: 120, end: 160, power: 1 })).toBe(true)
})

test('out of a long stretch of talking nothing stands alone for a while', () => {
  const talk = isolation()
  talk.note({ start: 0, end: 200, power: 1 })
  expect(talk.alone({ start: 270, end: 320, power: 1 })).toBe(false)
  expect(talk.alone({ start: 400, end: 450, power: 1 })).toBe(true)
})

test('who is far nearer than the others stands alone among their talk; they do not beside that', () => {
  const talk = isolation()
  talk.note({ start: 0, end: 200, power: 1 })
  expect(talk.alone({ start: 201, end: 260, power: 4.9 })).toBe(false)
  expect(talk.alone({ start: 201, end: 260, power: 5.2 })).toBe(true)
  talk.note({ start: 201, end: 260, power: 5.2 })
  expect(talk.alone({ start: 261, end: 320, power: 5.2 })).toBe(false)
  expect(talk.alone({ start: 320, end: 380, power: 1 })).toBe(false)
})
