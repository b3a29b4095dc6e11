import { describe, expect, test } from 'vitest'
import fc from 'fast-check'
import type { Contact } from '../ports/touches.ts'
import { touchJudge } from './touch-judge.ts'

const at = (at: number, more: Partial<Contact> = {}): Contact => ({ id: 1, at, x: 100, y: 100, size: 40, ...more })

function press(judge: ReturnType<typeof touchJudge>, from: number, more: Partial<Contact> = {}): boolean {
  const counts = judge.began(at(from, more))
  return judge.ended(at(from + 90, more)) && counts
}

describe('one finger', () => {
  test('counts, again and again at the pace of somebody typing a number', () => {
    const judge = touchJudge(null)
    for (let each = 0; each < 20; each++) expect(press(judge, each * 170, { id: each })).toBe(true)
    expect(judge.$refused.get()).toBeNull()
  })

  test('that shakes a little counts; one that goes on wipes', () => {
    const judge = touchJudge(5)
    judge.began(at(0))
    judge.moved(at(40, { x: 130 }))
    expect(judge.ended(at(80, { x: 130 }))).toBe(true)
    judge.began(at(1000))
    judge.moved(at(1040, { x: 300 }))
    judge.moved(at(1060, { x: 100 }))
    expect(judge.ended(at(1080))).toBe(false)
    expect(judge.$refused.get()).toBe('wiping')
  })
})

describe('what is no finger', () => {
  test('a palm is larger, in millimetres of this very screen', () => {
    expect(press(touchJudge(4), 0, { size: 150 })).toBe(false)
    expect(press(touchJudge(8), 0, { size: 150 })).toBe(true)
  })

  test('a palm that begins as a fingertip is one all the same', () => {
    const judge = touchJudge(5)
    expect(judge.began(at(0))).toBe(true)
    judge.moved(at(30, { size: 300 }))
    expect(judge.ended(at(200))).toBe(false)
  })

  test('two contacts at a time are no press, neither the first nor the second', () => {
    const judge = touchJudge(null)
    expect(judge.began(at(0, { id: 1 }))).toBe(true)
    expect(judge.began(at(20, { id: 2, x: 400 }))).toBe(false)
    expect(judge.ended(at(80, { id: 1 }))).toBe(false)
    expect(judge.ended(at(90, { id: 2 }))).toBe(false)
    expect(judge.$refused.get()).toBe('several')
    expect(press(judge, 400, { id: 3 })).toBe(true)
  })

  test('a contact right after another is the same one bouncing', () => {
    const judge = touchJudge(null)
    expect(press(judge, 0)).toBe(true)
    expect(press(judge, 90 + 30, { id: 2 })).toBe(false)
  })

  test('drops: many in a short time, until it has been quiet for a moment', () => {
    const judge = touchJudge(null)
    const counted = Array.from({ length: 12 }, (_, each) => {
      const began = judge.began(at(each * 100, { id: each }))
      return judge.ended(at(each * 100 + 20, { id: each })) && began
    })
    expect(counted.slice(0, 5)).toEqual([true, true, true, true, true])
    expect(counted.slice(5)).not.toContain(true)
    expect(press(judge, 1100 + 20 + 100, { id: 50 })).toBe(false)
    expect(press(judge, 3000, { id: 51 })).toBe(true)
  })

  test('a drop that stays on the glass does not stop the fingers', () => {
    const judge = touchJudge(null)
    judge.began(at(0, { id: 1 }))
    expect(press(judge, 1000, { id: 2 })).toBe(false)
    expect(press(judge, 4000, { id: 3 })).toBe(true)
  })

  test('a contact that the browser took away is forgotten', () => {
    const judge = touchJudge(null)
    judge.began(at(0, { id: 1 }))
    judge.lost(1)
    expect(press(judge, 500, { id: 2 })).toBe(true)
  })
})

test('whatever happened before, one finger counts after a second of quiet', () => {
  const contact = fc.record({
    id: fc.integer({ min: 0, max: 5 }),
    after: fc.integer({ min: 0, max: 300 }),
    x: fc.integer({ min: 0, max: 1000 }),
    size: fc.integer({ min: 1, max: 400 }),
    what: fc.constantFrom('began', 'moved', 'ended', 'lost')
  })
  fc.assert(
    fc.property(fc.array(contact, { maxLength: 60 }), (contacts) => {
      const judge = touchJudge(null)
      let now = 0
      const down = new Set<number>()
      for (const { id, after, x, size, what } of contacts) {
        now += after
        const one = { id, at: now, x, y: 0, size }
        if (what === 'began') {
          judge.began(one)
          down.add(id)
        } else if (what === 'moved') judge.moved(one)
        else if (what === 'ended') {
          judge.ended(one)
          down.delete(id)
        } else {
          judge.lost(id)
          down.delete(id)
        }
      }
      for (const id of down) judge.lost(id)
      expect(press(judge, now + 1000, { id: 9 })).toBe(true)
    })
  )
})
