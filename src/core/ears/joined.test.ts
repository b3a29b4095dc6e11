import { expect, test } from 'vitest'
import { joined } from './joined.ts'

test('two segments are one phrase where the first ended at most 350 ms before', () => {
  expect(joined({ start: 10, end: 60 }, { start: 95, end: 120 })).toEqual({ start: 10, end: 120 })
  expect(joined({ start: 10, end: 60 }, { start: 96, end: 120 })).toBeNull()
  expect(joined(null, { start: 96, end: 120 })).toBeNull()
})
