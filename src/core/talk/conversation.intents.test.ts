/** Whatever is meant: what no intent may do but the right one. */
import fc from 'fast-check'
import { describe, expect, it, test } from 'vitest'
import { aProcedure, EVERYTHING, SMALL } from '../../../tests/helpers/a-procedure.ts'
import { startTalk } from '../../../tests/helpers/spoken-script.ts'
import { layOut } from '../procedure/course.ts'
import { PLAIN_INTENTS, type Intent } from './intent.ts'

const SMALL_COURSE = layOut(aProcedure(SMALL))
const EVERY_COURSE = layOut(aProcedure(EVERYTHING))

const INTENTS: readonly Intent[] = [
  ...PLAIN_INTENTS.map((type) => ({ type })),
  ...['left', 'right', 'bench', 'machine'].map((lane) => ({ type: 'lane', lane }) as const),
  { type: 'phrase' },
  { type: 'held' },
  { type: 'number', value: 150, unit: null },
  { type: 'answer', answer: { kind: 'yes-no', value: 'yes' } },
  { type: 'correction', action: 'Mended it.' },
  { type: 'report', lane: 'left', text: 'Leak' }
]

describe.each(INTENTS)('$type', (intent) => {
  test('answers a ringing alarm and does nothing else', () => {
    const talk = startTalk(SMALL_COURSE)
    talk.hearWords('all done')
    talk.pass(120)
    const before = talk.events().length
    talk.intend(intent)
    const caused = talk.events().slice(before)
    expect(caused.map(({ type }) => type)).toEqual(['wait-acknowledged'])
    expect(talk.run().progress).toHaveLength(1)
  })

  test('gets past a caution only as a yes or a held key', () => {
    const talk = startTalk(EVERY_COURSE)
    talk.workUpTo('left soak')
    expect(talk.call().kind).toBe('caution')
    talk.intend(intent)
    const understood = talk.events().some(({ type }) => type === 'caution-acknowledged')
    expect(understood).toBe(intent.type === 'yes' || intent.type === 'held')
  })

  test('gets past a step that needs its phrase only as the phrase or a held key', () => {
    const talk = startTalk(EVERY_COURSE)
    talk.workUpTo('machine power')
    talk.intend(intent)
    const isDone = talk.events().some((event) => event.type === 'step-done' && event.step === 'power')
    expect(isDone).toBe(intent.type === 'phrase' || intent.type === 'held')
  })
})

it('never ends a wait, in whatever order', () => {
  fc.assert(
    fc.property(fc.array(fc.constantFrom(...INTENTS), { maxLength: 12 }), (intents) => {
      const talk = startTalk(SMALL_COURSE)
      talk.hearWords('all done')
      const due = talk.run().lanes['left']?.waiting?.due
      for (const intent of intents) talk.intend(intent)
      const left = talk.run().lanes['left']
      // Taken back, it begins anew; otherwise it is due when it was.
      expect(left?.position === 0 || left?.waiting?.due === due).toBe(true)
    })
  )
})
