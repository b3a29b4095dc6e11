import fc from 'fast-check'
import { describe, expect, it, test } from 'vitest'
import { aProcedure, EVERYTHING } from '../../../../tests/helpers/a-procedure.ts'
import type { HeldTo, Procedure, Step } from '../procedure.ts'
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
const RINSE_STEPS = before.stages[0]?.steps.length ?? 0
const STRIP = ['stages', 2, 'steps']

const bound = (max: number) => ({ unit: '[ppm]', min: null, max }) as const

function withReadings(procedure: Procedure, heldTo: readonly HeldTo[]): Procedure {
  const held = (step: Step): Step =>
    step.check?.kind === 'reading' ? { ...step, check: { ...step.check, heldTo } } : step
  return { ...procedure, stages: procedure.stages.map((stage) => ({ ...stage, steps: stage.steps.map(held) })) }
}

const PARTS = ['on', 'check', 'wait', 'repeat', 'late', 'chemistry']

type Path = readonly (string | number)[]

/** Where something stands that is no list and no object. */
function leavesOf(value: unknown, path: Path = []): readonly Path[] {
  if (value === null || typeof value !== 'object') return [path]
  const keys = Array.isArray(value) ? [...value.keys()] : Object.keys(value)
  return keys.flatMap((key) => leavesOf((value as Record<string | number, unknown>)[key], [...path, key]))
}

function changedAt(procedure: Procedure, path: Path): Procedure {
  const copy = structuredClone(procedure) as unknown as Record<string | number, unknown>
  const last = path.at(-1) ?? ''
  const holder = path.slice(0, -1).reduce((at, key) => at[key] as typeof copy, copy)
  const was = holder[last]
  holder[last] = typeof was === 'number' ? was + 1 : typeof was === 'string' ? `${was}x` : was === null ? 1 : !was
  return copy as unknown as Procedure
}

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

  it('a stage that got another name, came, went or was moved is told, once for all of its steps', () => {
    const stage = (title: string, step: string) => ({ stage: title, steps: [{ step, say: 'Look.', hands: '5 s' }] })
    const { stages, steps } = after(
      { kind: 'set', path: ['stages', 0, 'stage'], value: 'Rinse twice' },
      { kind: 'move', from: { list: ['stages'], at: 0 }, to: { list: ['stages'], at: 1 } },
      { kind: 'insert', list: ['stages'], at: 0, value: stage('Look around', 'look') }
    )
    expect(stages).toEqual([
      { kind: 'added', title: { en: 'Look around' } },
      { kind: 'changed', title: { en: 'Power' }, before: null, movedBehind: { en: 'Look around' } },
      { kind: 'changed', title: { en: 'Rinse twice' }, before: { en: 'Rinse' } }
    ])
    expect(steps.map((one) => [one.kind, one.step.id])).toEqual([['added', 'look']])
    expect(after({ kind: 'remove', list: ['stages'], at: 1 }).stages).toEqual([
      { kind: 'removed', title: { en: 'Power' } }
    ])
  })

  it('a step that goes to the next stage is told, though it comes after the same steps as before', () => {
    const last = before.stages[0]?.steps.at(-1)
    const { stages, steps } = after({
      kind: 'move',
      from: { list: RINSE, at: RINSE_STEPS - 1 },
      to: { list: ['stages', 1, 'steps'], at: 0 }
    })
    expect(stages).toEqual([])
    expect(steps).toEqual([
      { kind: 'changed', step: last, stage: { en: 'Power' }, facts: [], stageBefore: { en: 'Rinse' } }
    ])
  })

  it('the figures that a reading is held to are told, and not their source alone', () => {
    const held = (max: number) => withReadings(before, [{ title: 'Rules', source: 'A law', rows: [[[bound(max)]]] }])
    const { steps } = compare(held(200), held(100))
    const facts = steps.flatMap((one) => (one.kind === 'changed' ? one.facts : []))
    expect(facts[0]).toMatchObject({ name: 'held-to', number: 1, after: { to: { rows: [[[{ max: 100 }]]] } } })
  })

  it('nothing that a version says can change without being told', () => {
    const whole = withReadings(before, [{ title: 'Rules', source: 'A law', rows: [[[bound(200)]]] }])
    // One that is not there, or another kind of it, would have other keys beside it.
    const isPart = (path: Path) =>
      PARTS.some((part) => path.at(-1) === part || path.slice(-2).join(' ') === `${part} kind`)
    const leaves = leavesOf(whole).filter((path) => !isPart(path))
    const silent = leaves.filter((path) => isSame(compare(whole, changedAt(whole, path))))
    // A procedure stays itself: what is compared has one id.
    expect(silent).toEqual([['id']])
  })

  it('that it is an example now, or no longer', () => {
    expect(after({ kind: 'set', path: ['example'], value: true }).example).toBe(true)
    expect(compare(before, before).example).toBeNull()
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
