import { describe, expect, it, test } from 'vitest'
import { aCourse, aProcedure, EVERYTHING } from '../../tests/helpers/a-procedure.ts'
import { carriedRun, DONE, UNDERSTOOD } from '../../tests/helpers/a-run.ts'
import { layOut } from '../core/procedure/course.ts'
import { LONG_HOLD_MS, type KeyPress } from '../ports/keys.ts'
import { HOLD_MS, isUsed, laneLetter, meaningOf, NEXT_KEYS, type KeyContext } from './keys.ts'

const LANES = [
  { id: 'left', name: 'Left' },
  { id: 'right', name: 'Right' },
  { id: 'bench', name: 'Bench' }
]
const fresh = carriedRun(layOut(aProcedure(EVERYTHING)))
const CONTEXT: KeyContext = {
  call: fresh.call(),
  asking: null,
  lanes: LANES,
  corrections: [],
  numbers: false,
  typed: false,
  panelOpen: false,
  oneSwitch: 'no'
}

const press = (key: string, heldMs = 60, code = key): KeyPress => ({ code, key, heldMs })
const intentOf = (given: KeyPress, context: Partial<KeyContext> = {}) => {
  const meaning = meaningOf(given, { ...CONTEXT, ...context })
  return meaning?.kind === 'intent' ? meaning.intent : null
}

test.each([...NEXT_KEYS])('%s says done when pressed, and stands for the phrase when held', (code) => {
  expect(intentOf(press(code))).toEqual({ type: 'done' })
  expect(intentOf(press(code, HOLD_MS))).toEqual({ type: 'held' })
})

test.each([
  ['PageUp', 'PageUp', { type: 'repeat' }],
  ['ArrowLeft', 'ArrowLeft', { type: 'repeat' }],
  ['Backspace', 'Backspace', { type: 'take-back' }],
  ['y', 'KeyY', { type: 'yes' }],
  ['N', 'KeyN', { type: 'no' }],
  ['p', 'KeyP', { type: 'pause' }],
  ['h', 'KeyH', { type: 'how-long' }],
  ['w', 'KeyW', { type: 'why' }],
  ['m', 'KeyM', { type: 'more' }],
  ['q', 'KeyQ', { type: 'quiet' }],
  ['r', 'KeyR', { type: 'lane', lane: 'right' }],
  ['3', 'Digit3', { type: 'lane', lane: 'bench' }]
])('%s', (key, code, intent) => {
  expect(intentOf(press(key, 60, code))).toEqual(intent)
})

it('leaves keys that mean nothing to the browser', () => {
  expect(meaningOf(press('F7'), CONTEXT)).toBe(null)
  expect(isUsed({ code: 'Tab', key: 'Tab' }, CONTEXT)).toBe(false)
})

it('leaves every key to the browser once the run is over', () => {
  const over = carriedRun(layOut(aProcedure(EVERYTHING))).do({ type: 'abandon', reason: 'Flood' })
  expect(meaningOf(press('Enter'), { ...CONTEXT, call: over.call() })).toBe(null)
})

it('swallows the reload key that remotes send for start', () => {
  expect(meaningOf(press('F5'), CONTEXT)).toEqual({ kind: 'nothing' })
})

it('takes any key for the answer to an alarm', () => {
  const course = aCourse(
    '  - {stage: A, steps: [{step: a, say: Soak it., hands: 1 s, wait: {for: soak, at least: 1 min, source: Label}}, {step: b, say: Next., hands: 1 s}]}'
  )
  const ringing = carriedRun(course).do(DONE, DONE).pass(60)
  expect(ringing.call().kind).toBe('alarm')
  for (const key of ['x', 'F7', 'Backspace', '7']) expect(intentOf(press(key), { call: ringing.call() })).not.toBe(null)
})

it('goes on from a pause with the same pedal', () => {
  const paused = fresh.do({ type: 'pause' }).call()
  fresh.do({ type: 'resume' })
  expect(intentOf(press('PageDown'), { call: paused })).toEqual({ type: 'resume' })
  expect(intentOf(press('p'), { call: paused })).toEqual({ type: 'resume' })
})

it('answers yes and no with held pedals, and not with a press', () => {
  const course = aCourse(
    '  - {stage: A, steps: [{step: a, say: Look., hands: 1 s, ask: {question: Is it clear?, if not: [Rinse.]}}]}'
  )
  const asked = carriedRun(course).call()
  expect(intentOf(press('PageDown', HOLD_MS), { call: asked })).toEqual({ type: 'yes' })
  expect(intentOf(press('PageUp', HOLD_MS), { call: asked })).toEqual({ type: 'no' })
  expect(intentOf(press('PageDown'), { call: asked })).toEqual({ type: 'done' })
})

it('types digits only while a number is asked for, and records with Enter only when one was typed', () => {
  const numbers = { ...CONTEXT, numbers: true }
  expect(meaningOf(press('4', 60, 'Digit4'), numbers)).toEqual({ kind: 'number-key', key: '4' })
  expect(meaningOf(press(',', 60, 'Comma'), numbers)).toEqual({ kind: 'number-key', key: '.' })
  expect(meaningOf(press('Enter'), { ...numbers, typed: true })).toEqual({ kind: 'record-number' })
  expect(meaningOf(press('Backspace'), { ...numbers, typed: true })).toEqual({ kind: 'number-key', key: 'erase' })
  expect(intentOf(press('Backspace'), numbers)).toEqual({ type: 'take-back' })
  expect(intentOf(press('Enter'), numbers)).toEqual({ type: 'done' })
})

it('chooses a listed correction by its number', () => {
  const course = aCourse(
    '  - {stage: A, steps: [{step: a, say: Look., hands: 1 s, ask: {question: Is it clear?, if not: [Rinse., Call.]}}]}'
  )
  const stopped = carriedRun(course)
    .do({ type: 'answer', answer: { kind: 'yes-no', value: 'no' } })
    .call()
  expect(stopped.kind).toBe('stopped')
  expect(intentOf(press('2'), { call: stopped, corrections: ['Rinse.', 'Call.'] })).toEqual({
    type: 'correction',
    action: 'Call.'
  })
  expect(meaningOf(press('3'), { ...CONTEXT, call: stopped, corrections: ['Rinse.', 'Call.'] })).toEqual({
    kind: 'nothing'
  })
})

it('gives a lane a letter only when nothing else has it', () => {
  const lanes = [
    { id: 'a', name: 'Middle' },
    { id: 'b', name: 'Left' },
    { id: 'c', name: 'Lower' },
    { id: 'd', name: 'Right' }
  ]
  expect(lanes.map(({ id }) => laneLetter(id, lanes))).toEqual([null, null, null, 'r'])
})

it('takes a caution in by a held key and not by a press', () => {
  const cautioned = carriedRun(layOut(aProcedure(EVERYTHING))).do(DONE)
  expect(cautioned.call().kind).toBe('caution')
  expect(intentOf(press('PageDown', HOLD_MS), { call: cautioned.call() })).toEqual({ type: 'held' })
  expect(cautioned.do(UNDERSTOOD).call().kind).toBe('step')
})

describe('a single switch', () => {
  const one = { oneSwitch: 'yes' } as const

  it('says done, and confirms when held, as any other', () => {
    expect(intentOf(press('PageDown'), one)).toEqual({ type: 'done' })
    expect(intentOf(press('PageDown', HOLD_MS), one)).toEqual({ type: 'held' })
  })

  it('is offered everything after a long hold', () => {
    expect(meaningOf(press('Space', LONG_HOLD_MS), { ...CONTEXT, ...one })).toEqual({ kind: 'scan', of: 'everything' })
  })

  it.each([{ panelOpen: true }, { asking: { kind: 'is-done', step: 'step left soak' } as const }])(
    'is offered the answers where one press cannot tell them apart: %o',
    (more) => {
      expect(meaningOf(press('Space'), { ...CONTEXT, ...one, ...more })).toEqual({ kind: 'scan', of: 'answers' })
    }
  )

  it('takes what is offered, and leaves it by a hold', () => {
    const scanning = { ...CONTEXT, oneSwitch: 'scanning' } as const
    expect(meaningOf(press('Space'), scanning)).toEqual({ kind: 'scan-take' })
    expect(meaningOf(press('Space', HOLD_MS), scanning)).toEqual({ kind: 'close' })
  })
})
