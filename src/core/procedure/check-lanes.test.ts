import { describe, expect, it, test } from 'vitest'
import { withHead } from '../../../tests/helpers/a-procedure.ts'
import { told } from '../../../tests/helpers/faulty-procedure.ts'

const TOOLS = `tools:
  - {id: pail, name: Pail}
  - {id: brush, name: Brush}
  - {id: pump, name: Pump}
  - {id: cloth, name: Cloth, count: 2}`

/** Steps from line 17 on, one a line. */
function toldOf(...steps: readonly string[]): readonly string[] {
  const lines = steps.map((step) => `      - {${step}, say: Go., hands: 5 s}`).join('\n')
  return told(withHead(`  - stage: A\n    steps:\n${lines}`, TOOLS))
}

const ASK = 'ask: {question: Is it clear?}'
const LATE = (redo: string) =>
  `wait: {for: soak, at least: 1 min, at most: 2 min, source: Label, late: {say: Go., redo: ${redo}}}`

describe('going back', () => {
  test('to a step that comes later', () => {
    expect(toldOf(`step: a, ${ASK}, again: {from: b, at most: 2}`, 'step: b')).toEqual([
      '17: Step "a" goes back to "b", which is not an earlier step of the same lane. -> Name a step that comes before it on the same side, bench or machine.'
    ])
  })

  test('to a step of another lane', () => {
    expect(toldOf('step: a, on: bench', `step: b, ${ASK}, again: {from: a, at most: 2}`)).toEqual([
      '18: Step "b" goes back to "a", which is not an earlier step of the same lane. -> Name a step that comes before it on the same side, bench or machine.'
    ])
  })

  test('to a step that only one of the sides has', () => {
    expect(toldOf('step: a, on: left', `step: b, ${ASK}, again: {from: a, at most: 2}`)).toEqual([
      '18: Step "b" goes back to "a", which is not an earlier step of the same lane. -> Name a step that comes before it on the same side, bench or machine.'
    ])
  })

  test('across a barrier', () => {
    expect(toldOf('step: a', 'step: b, on: whole machine', `step: c, ${ASK}, again: {from: a, at most: 2}`)).toEqual([
      '19: Step "c" goes back to "a" across a whole-machine step. -> Name a step that comes after the last whole-machine step.'
    ])
  })

  test('across a barrier when late', () => {
    expect(toldOf('step: a', 'step: b, on: whole machine', `step: c, ${LATE('a')}`)).toEqual([
      '19: Step "c" goes back to "a" across a whole-machine step. -> Name a step that comes after the last whole-machine step.'
    ])
  })

  test('from a barrier', () => {
    const steps = ['step: a, on: whole machine', `step: b, on: whole machine, ${ASK}, again: {from: a, at most: 2}`]
    expect(toldOf(...steps)).toEqual([
      '18: The whole-machine step "b" goes back to another step. -> A whole-machine step can only repeat itself, because the sides have moved on.'
    ])
    expect(toldOf(`step: a, on: whole machine, ${ASK}, again: {from: a, at most: 2}`)).toEqual([])
  })
})

describe('tools', () => {
  test('taken twice', () => {
    expect(toldOf('step: a, take: [pail]', 'step: b, take: [pail]', 'step: c, free: [pail]')).toEqual([
      '18: Step "b" takes "pail", which its lane already holds. -> Free it first, or take it out of one of the steps.'
    ])
  })

  test('named twice, which would never come free', () => {
    expect(toldOf('step: a, take: [cloth, cloth]', 'step: b, free: [cloth]')).toEqual([
      '17: Step "a" names "cloth" twice. -> Name it once.'
    ])
  })

  test('freed by a lane that has none', () => {
    expect(
      toldOf('step: a, on: bench, take: [pail]', 'step: b, on: bench, free: [pail]', 'step: c, free: [pail]')
    ).toEqual([
      '19: Step "c" frees "pail", which its lane does not hold. -> Take it in an earlier step of the same lane.'
    ])
  })

  test.each([
    ['at the end', ['step: a, take: [pail]']],
    ['at a barrier', ['step: a, take: [pail]', 'step: b, on: whole machine', 'step: c, free: [pail]']],
    ['by the barrier itself', ['step: a, on: whole machine, take: [pail]']]
  ])('kept %s', (_, steps) => {
    expect(toldOf(...steps)[0]).toBe(
      '17: After step "a" the lane still holds pail where every lane stops. -> Free it before the next whole-machine step or the end.'
    )
  })

  test('held otherwise when a repeat comes round', () => {
    expect(
      toldOf('step: a, take: [pail]', `step: b, ${ASK}, again: {from: a, at most: 2}`, 'step: c, free: [pail]')
    ).toEqual([
      '18: Going back from "b" to "a", the lane would not hold the same tools as the first time. -> Take and free the tool both inside or both outside of the repeated part.'
    ])
  })

  test('held otherwise when something is late, also where the step can repeat', () => {
    const steps = [
      'step: a, take: [pail]',
      `step: b, ${ASK}, again: {from: b, at most: 2}, ${LATE('a')}`,
      'step: c, free: [pail]'
    ]
    expect(toldOf(...steps)).toEqual([
      '18: Going back from "b" to "a", the lane would not hold the same tools as the first time. -> Take and free the tool both inside or both outside of the repeated part.'
    ])
  })
})

describe('rings of tools', () => {
  const ring = (step: string, taken: string, held: string) =>
    `Step "${step}" takes "${taken}" while its lane holds "${held}", and other steps take them the other way round: two lanes could wait for each other for ever. -> Take the tools in the same order everywhere, or in one step.`

  test('of two tools on two sides', () => {
    expect(
      toldOf(
        'step: a, on: left, take: [pail]',
        'step: b, on: left, take: [brush], free: [pail, brush]',
        'step: c, on: right, take: [brush]',
        'step: d, on: right, take: [pail], free: [pail, brush]'
      )
    ).toEqual([`20: ${ring('d', 'pail', 'brush')}`])
  })

  test('of two tools that each side takes both ways', () => {
    expect(
      toldOf(
        'step: a, take: [pail]',
        'step: b, take: [brush], free: [pail]',
        'step: c, take: [pail], free: [pail, brush]'
      )
    ).toEqual([`19: ${ring('c', 'pail', 'brush')}`, `18: ${ring('b', 'brush', 'pail')}`])
  })

  test('of three tools on three lanes', () => {
    expect(
      toldOf(
        'step: a, on: left, take: [pail]',
        'step: b, on: left, take: [brush], free: [pail, brush]',
        'step: c, on: right, take: [brush]',
        'step: d, on: right, take: [pump], free: [brush, pump]',
        'step: e, on: bench, take: [pump]',
        'step: f, on: bench, take: [pail], free: [pump, pail]'
      )
    ).toEqual([`22: ${ring('f', 'pail', 'pump')}`])
  })

  it.each([
    ['tools taken in one step', ['step: a, take: [pail, brush]', 'step: b, free: [brush, pail]']],
    [
      'one order everywhere',
      [
        'step: a, take: [pail]',
        'step: b, take: [brush], free: [pail, brush]',
        'step: c, on: bench, take: [pail]',
        'step: d, on: bench, take: [brush], free: [pail, brush]'
      ]
    ],
    [
      'two orders with a barrier between',
      [
        'step: a, take: [pail]',
        'step: b, take: [brush], free: [pail, brush]',
        'step: c, on: whole machine',
        'step: d, take: [brush]',
        'step: e, take: [pail], free: [pail, brush]'
      ]
    ],
    [
      'a tool of which there are enough',
      [
        'step: a, on: left, take: [pail]',
        'step: b, on: left, take: [cloth], free: [pail, cloth]',
        'step: c, on: right, take: [cloth]',
        'step: d, on: right, take: [pail], free: [pail, cloth]'
      ]
    ],
    [
      'tools that one lane alone uses',
      [
        'step: a, on: left, take: [pail]',
        'step: b, on: left, take: [brush], free: [pail]',
        'step: c, on: left, take: [pail], free: [pail, brush]'
      ]
    ]
  ])('allows %s', (_, steps) => {
    expect(toldOf(...steps)).toEqual([])
  })
})
