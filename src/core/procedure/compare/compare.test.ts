import fc from 'fast-check'
import { describe, expect, it, test } from 'vitest'
import { aProcedure, EVERYTHING } from '../../../../tests/helpers/a-procedure.ts'
import { applyEdits, type Edit } from '../edit/edit.ts'
import { compare, isSame } from './compare.ts'
import { inOrder } from './in-order.ts'

const before = aProcedure(EVERYTHING)

function after(...edits: readonly Edit[]) {
  const edited = applyEdits(EVERYTHING, edits)
  if (edited.kind === 'refused') throw new Error(edited.why)
  return compare(before, aProcedure(edited.text))
}

const RINSE = ['stages', 0, 'steps']
const STRIP = ['stages', 2, 'steps']

describe('between two versions', () => {
  it('nothing is told where nothing is different', () => {
    expect(isSame(after())).toBe(true)
    // As it comes out of the store, with keys in another order.
    const stored = JSON.parse(JSON.stringify(before, Object.keys(before).toSorted()))
    expect(isSame(compare({ ...before, ...stored.id }, before))).toBe(true)
  })

  it('the spoken words, waits and limits of a step are told with what they were', () => {
    const { steps } = after(
      { kind: 'set', path: [...RINSE, 0, 'say'], value: 'Fill it.' },
      { kind: 'set', path: [...RINSE, 1, 'wait', 'at least'], value: '6 min' },
      { kind: 'set', path: [...STRIP, 1, 'read', 'at most'], value: 150 },
      { kind: 'clear', path: [...RINSE, 3, 'again'] },
      { kind: 'insert', list: [...RINSE, 3, 'ask', 'if not'], at: 0, value: 'Rinse it.' }
    )
    const facts = steps.flatMap((one) =>
      one.kind === 'changed'
        ? one.facts.map(({ kind, name, before: was, after: is }) => [one.step.id, kind, name, was, is])
        : []
    )
    expect(facts).toEqual([
      [
        'fill',
        'spoken',
        'say',
        { kind: 'text', text: { en: 'Fill the hopper.' } },
        { kind: 'text', text: { en: 'Fill it.' } }
      ],
      ['soak', 'wait', 'wait-least', { kind: 'seconds', seconds: 300 }, { kind: 'seconds', seconds: 360 }],
      ['clear', 'spoken', 'correction', null, { kind: 'text', text: { en: 'Rinse it.' } }],
      ['clear', 'limit', 'again', { kind: 'rounds', from: 'fill', atLeast: 2, atMost: 4 }, null],
      [
        'strength',
        'limit',
        'most',
        { kind: 'amount', amount: 200, unit: '[ppm]' },
        { kind: 'amount', amount: 150, unit: '[ppm]' }
      ]
    ])
  })

  it('a step that came, went or was moved is told as such', () => {
    const { steps } = after(
      { kind: 'move', from: { list: STRIP, at: 0 }, to: { list: STRIP, at: 2 } },
      { kind: 'remove', list: RINSE, at: 4 },
      { kind: 'insert', list: STRIP, at: 0, value: { step: 'new', say: 'Look.', hands: '5 s' } }
    )
    expect(steps.map((one) => [one.kind, one.step.id])).toEqual([
      ['added', 'new'],
      ['changed', 'sanitize'],
      ['removed', 'scrub-bench']
    ])
    expect(steps[1]).toMatchObject({ facts: [], movedBehind: { id: 'pieces' } })
  })

  it('titles, languages, parts and tools are told', () => {
    const { head, languages, things } = after(
      { kind: 'set', path: ['title'], value: 'Other' },
      { kind: 'set', path: ['parts', 0, 'count'], value: 2 },
      { kind: 'insert', list: ['supplies'], at: 0, value: { id: 'cup', name: 'Cup', amount: '1', per: 'side' } }
    )
    expect(head).toEqual([{ name: 'title', before: { en: 'Test' }, after: { en: 'Other' } }])
    expect(languages).toBeNull()
    expect(things).toEqual([
      { list: 'parts', kind: 'changed', name: { en: 'Seal' }, keys: [{ key: 'count', before: 1, after: 2 }] },
      { list: 'supplies', kind: 'added', name: { en: 'Cup' }, keys: [] }
    ])
  })
})

test('as few as possible are called moved: against trying every choice', () => {
  fc.assert(
    fc.property(fc.shuffledSubarray(['a', 'b', 'c', 'd', 'e', 'f']), (after) => {
      const before = ['a', 'b', 'c', 'd', 'e', 'f']
      const kept = inOrder(before, after)
      const isSorted = (ids: readonly string[]) => ids.every((id, index) => index === 0 || (ids[index - 1] ?? '') < id)
      const choices = Array.from({ length: 2 ** after.length }, (_, bits) => after.filter((__, at) => bits & (1 << at)))
      const best = Math.max(...choices.filter(isSorted).map(({ length }) => length))
      expect(isSorted(after.filter((id) => kept.has(id)))).toBe(true)
      expect(kept.size).toBe(best)
    })
  )
})
