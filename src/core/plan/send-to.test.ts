import { expect, test } from 'vitest'
import { aCourse } from '../../../tests/helpers/a-procedure.ts'
import { carriedRun, DONE } from '../../../tests/helpers/a-run.ts'
import { FIRST_HANDS } from '../run/run.ts'
import { sendTo, type Order } from './send-to.ts'

const course = aCourse(`  - stage: A
    steps:
      - step: soak
        say: Soak it.
        hands: 10 s
        wait: {for: soak, at least: 1 min, source: Label}
      - {step: look, say: Look at it., hands: 10 s, ask: {question: Is it clean?, if not: [Rinse it again.]}}`)
const order = (...steps: readonly string[]): Order =>
  steps.map((name) => {
    const [lane = '', step = ''] = name.split(' ')
    return { lane, step, round: 1, start: 0 }
  })

test('hands go where the plan says, past what has been done already', () => {
  const run = carriedRun(course)
  const sent = (planned: Order) => sendTo(course, run.run(), run.at(), FIRST_HANDS, planned)
  expect(sent(order('right soak', 'left soak'))).toEqual({ kind: 'hands', lane: 'right' })
  run.do(DONE)
  expect(sent(order('left soak', 'right soak'))).toEqual({ kind: 'hands', lane: 'right' })
})

test('they stand by for a lane that still waits where the plan says that this is better', () => {
  const run = carriedRun(course).do(DONE)
  const until = run.run().lanes['left']?.waiting?.due
  expect(sendTo(course, run.run(), run.at(), FIRST_HANDS, order('left look', 'right soak'))).toEqual({
    kind: 'rest',
    lane: 'left',
    until
  })
})

test('what has just gone wrong is put right before the plan, which did not know of it, sends anybody away', () => {
  const run = carriedRun(course).do(DONE).do({ type: 'choose-lane', lane: 'right' }).do(DONE).pass(60)
  run.do({ type: 'acknowledge-wait', lane: 'left' }, { type: 'acknowledge-wait', lane: 'right' })
  run.do({ type: 'choose-lane', lane: 'left' }, { type: 'answer', answer: { kind: 'yes-no', value: 'no' } })
  expect(run.run().lanes['left']?.stop).not.toBeNull()
  expect(sendTo(course, run.run(), run.at(), FIRST_HANDS, order('left look', 'right look'))).toEqual({
    kind: 'hands',
    lane: 'left'
  })
})

test('without a plan, or with one that is all done, the plain rule holds', () => {
  const run = carriedRun(course).do(DONE)
  for (const planned of [[], order('left soak')])
    expect(sendTo(course, run.run(), run.at(), FIRST_HANDS, planned)).toEqual({ kind: 'hands', lane: 'right' })
})
