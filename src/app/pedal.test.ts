import fc from 'fast-check'
import { expect, test } from 'vitest'
import { asTaught, canBeTaught, forgotten, isPedal, PEDAL_MEANINGS, switchOf, taught } from './pedal.ts'

test('a switch means what it was taught, and any other key itself', () => {
  const pedal = taught({}, 'done', 'F13')
  expect(asTaught(pedal, { code: 'F13', key: 'F13', heldMs: 40 })).toEqual({ code: 'Space', key: ' ', heldMs: 40 })
  expect(asTaught(pedal, { code: 'KeyY', key: 'y' })).toEqual({ code: 'KeyY', key: 'y' })
})

test.each(['Escape', 'Tab', 'F5', 'ShiftLeft', 'MetaRight', ''])('%s leads out, so it cannot be taught', (code) => {
  expect(canBeTaught(code)).toBe(false)
  expect(isPedal({ [code]: 'done' })).toBe(false)
})

test.each([null, [], 'done', { F13: 'fly' }])('%o is no pedal', (kept) => {
  expect(isPedal(kept) && Object.keys(kept).length > 0).toBe(false)
})

test('whatever is taught in whatever order, a meaning has one switch at most', () => {
  const lesson = fc.record({ meaning: fc.constantFrom(...PEDAL_MEANINGS), code: fc.constantFrom('F13', 'F14', 'KeyB') })
  fc.assert(
    fc.property(fc.array(lesson), (lessons) => {
      const pedal = lessons.reduce((before, { meaning, code }) => taught(before, meaning, code), {})
      const meanings = Object.values(pedal)
      expect(new Set(meanings).size).toBe(meanings.length)
      expect(isPedal(pedal)).toBe(true)
      const last = lessons.at(-1)
      if (!last) return
      expect(switchOf(pedal, last.meaning)).toBe(last.code)
      expect(switchOf(forgotten(pedal, last.meaning), last.meaning)).toBeNull()
    })
  )
})
