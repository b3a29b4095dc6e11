import { describe, expect, test } from 'vitest'
import { withHead } from '../../../tests/helpers/a-procedure.ts'
import { told } from '../../../tests/helpers/faulty-procedure.ts'

const PARTS = `parts:
  - {id: seal, name: Seal, per: side, count: 2, care: grease}
  - {id: tray, name: Tray, per: machine, count: 1, care: clean}`

/** Steps from line 15 on, one a line. */
function toldOf(...steps: readonly string[]): readonly string[] {
  const lines = steps.map((step) => `      - {${step}, say: Go., hands: 5 s}`).join('\n')
  return told(withHead(`  - stage: A\n    steps:\n${lines}`, PARTS))
}
const count = (going: string, ...parts: readonly string[]) =>
  `count: {question: How many?, parts: [${parts.join(', ')}], going: ${going}, if not: [Find it.]}`
const WAY =
  'Put a whole-machine step between the two, so that a missing part stops the machine from being put together.'

describe('a procedure that takes apart and builds up', () => {
  test('counts each part both ways', () => {
    expect(toldOf(`step: off, ${count('off', 'seal')}`, `step: on, ${count('on', 'seal')}`)).toEqual([])
    expect(toldOf(`step: off, ${count('off', 'seal', 'tray')}`, `step: on, ${count('on', 'seal')}`)).toEqual([
      '15: "tray" is counted off in step "off", and never on. -> Add it to a count that is going: on, or take it out of this one.'
    ])
    expect(toldOf(`step: off, ${count('off', 'seal')}`, `step: on, ${count('on', 'seal', 'tray')}`)).toEqual([
      '16: "tray" is counted on in step "on", and never off. -> Add it to a count that is going: off, or take it out of this one.'
    ])
  })

  test('does not count on before off', () => {
    expect(toldOf(`step: on, ${count('on', 'seal')}`, `step: off, ${count('off', 'seal')}`)).toEqual([
      `15: "seal" can be counted on in step "on" while step "off" still counts it off. -> ${WAY}`
    ])
  })

  test('has a whole-machine step between lanes, so that a missing part stops the other lane too', () => {
    const off = `step: off, on: bench, ${count('off', 'seal')}`
    const on = `step: on, ${count('on', 'seal')}`
    expect(toldOf(off, on)).toEqual([
      `16: "seal" can be counted on in step "on" while step "off" still counts it off. -> ${WAY}`
    ])
    expect(toldOf(off, 'step: door, on: whole machine', on)).toEqual([])
    expect(toldOf(off, `step: on, on: whole machine, ${count('on', 'seal')}`)).toEqual([])
    expect(toldOf(`step: off, on: whole machine, ${count('off', 'seal')}`, on)).toEqual([])
  })
})

test('a procedure that only takes apart, or only builds up, leaves the other half to another', () => {
  expect(toldOf(`step: off, ${count('off', 'seal')}`)).toEqual([])
  expect(toldOf(`step: on, ${count('on', 'seal', 'tray')}`)).toEqual([])
})
