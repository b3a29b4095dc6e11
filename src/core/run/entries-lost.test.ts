import { describe, expect, test } from 'vitest'
import { aCourse } from '../../../tests/helpers/a-procedure.ts'
import { carriedRun, DONE, type CarriedRun } from '../../../tests/helpers/a-run.ts'
import { counting } from '../../../tests/helpers/stamping.ts'
import { callAt } from './call.ts'
import { decide } from './decide.ts'
import { gapsIn } from './entries-lost.ts'
import type { RunEvent } from './event.ts'
import { phaseOf } from './phase.ts'
import { advance, replay } from './reduce.ts'
import type { Run } from './run.ts'

const wait = (minutes: number, most = '') => `wait: {for: soak, at least: ${minutes} min${most}, source: Label}`

const course = aCourse(`  - stage: Soak
    steps:
      - {step: fill, on: [left, right], say: Fill it., hands: 30 s}
      - {step: soak, on: [left, right], say: Close it., hands: 10 s, ${wait(10)}}
      - {step: drain, on: [left, right], say: Drain it., hands: 10 s, ${wait(2)}}
      - {step: look, on: [left, right], say: Look at the drain., hands: 5 s, ask: {question: Is it clear?}, again: {from: fill, at least: 1, at most: 4}}
      - {step: wipe, on: [left, right], say: Wipe it., hands: 5 s}
      - {step: rinse, on: [left, right], say: Rinse it., hands: 5 s}`)

const NO = { type: 'answer', answer: { kind: 'yes-no', value: 'no' } } as const
const MIN = 60_000

/** Goes on from `left`, ten seconds after the last of all events: what the device that lost the others then knows. */
function afterLosing(
  whole: CarriedRun,
  left: readonly RunEvent[],
  on = course
): { run: Run; at: number; events: readonly RunEvent[] } {
  const at = whole.at() + 10_000
  const loss = counting('other')(at)({ type: 'entries-lost', ids: ['some'], gaps: 0 })
  const events = [...left, loss]
  return { run: replay(on, 'run', events), at, events }
}

const leftWait = (run: Run) => run.lanes['left']?.waiting

/** Only the left side works; its alarms are answered. */
function leftDone(whole: CarriedRun, times: number): CarriedRun {
  for (let done = 0; done < times; done += 1) {
    whole.do({ type: 'choose-lane', lane: 'left' }, DONE)
    const running = leftWait(whole.run())
    if (running) whole.pass((running.due - whole.at()) / 1000).do({ type: 'acknowledge-wait', lane: 'left' })
  }
  return whole
}

describe('the wait that counts begins anew', () => {
  test('in full, from when somebody went on, and rings again', () => {
    const whole = carriedRun(course).do(DONE, DONE).pass(300)
    const { run, at } = afterLosing(whole, whole.events())
    expect(leftWait(run)).toMatchObject({ step: 'soak', since: at, due: at + 10 * MIN, acknowledgedAt: null })
  })

  test('what the server said about the time is lost: it is due no sooner than with it', () => {
    const whole = carriedRun(course).do(DONE, DONE).pass(60)
    whole.pass(50)
    const caughtUp = counting('tablet')(whole.at())({ type: 'clock-caught-up', since: 0, byMs: 50_000 })
    const really = replay(course, 'run', [...whole.events(), { ...caughtUp, id: 'late', seq: 99 }])
    const { run } = afterLosing(whole, whole.events())
    expect(leftWait(run)?.due).toBeGreaterThan(leftWait(really)?.due ?? Infinity)
  })

  test('that of a step done once more, after the question that sent the lane back is lost', () => {
    const whole = leftDone(carriedRun(course), 3).do({ type: 'choose-lane', lane: 'left' }, NO)
    const question = whole.events().find(({ type }) => type === 'check-answered')
    leftDone(whole, 1).do({ type: 'choose-lane', lane: 'left' }, DONE).pass(60)
    expect(leftWait(whole.run())).toMatchObject({ step: 'soak', round: 2 })
    const { run, at } = afterLosing(
      whole,
      whole.events().filter((event) => event !== question)
    )
    // By what is left, the side only has the two minutes of its draining behind it.
    expect(run.lanes['left']?.position).toBe(3)
    expect(leftWait(run)?.due).toBe(at + 10 * MIN)
  })

  test('that of a step taken back and done again, after both are lost, where the lane had nothing to wait for', () => {
    const whole = leftDone(carriedRun(course), 3)
      .do({ type: 'choose-lane', lane: 'left' }, { type: 'answer', answer: { kind: 'yes-no', value: 'yes' } })
      .do({ type: 'choose-lane', lane: 'left' }, DONE)
    const left = whole.events()
    expect(leftWait(whole.run())).toBe(null)
    whole.do(...Array.from({ length: 4 }, () => ({ type: 'take-back' }) as const))
    whole.do({ type: 'choose-lane', lane: 'left' }, DONE)
    expect(leftWait(whole.run())).toMatchObject({ step: 'soak' })
    const { run } = afterLosing(whole, left)
    expect(leftWait(run)?.due).toBeGreaterThan(leftWait(whole.run())?.due ?? Infinity)
  })

  test('not on a lane that has no wait behind it', () => {
    const whole = carriedRun(course).do(DONE)
    const { run } = afterLosing(whole, whole.events())
    expect(leftWait(run)).toBe(null)
  })

  test('a longest time counts as missed, and looking at the lane does not settle it', () => {
    const most = aCourse(`  - stage: Clean
    steps:
      - {step: clean, on: [left], say: Pour it in., hands: 5 s, ${wait(1, ', at most: 30 min, late: {say: Pour it out., redo: clean}')}}
      - {step: out, on: [left], say: Let it out., hands: 5 s}`)
    const whole = carriedRun(most).do(DONE)
    const { run, at } = afterLosing(whole, whole.events(), most)
    const over = at + MIN
    expect(phaseOf(most, run, 'left', over)).toMatchObject({ kind: 'stopped', stop: { kind: 'entries-lost' } })
    const stamp = counting('other-2')
    const looked = decide(most, run, { type: 'correct', lane: 'left', action: 'Looked.' }, over, stamp(over)).events
    const after = advance(most, run, [...whole.events(), ...looked], looked)
    expect(phaseOf(most, after, 'left', over).kind).toBe('late')
  })

  test('what the device catches up with later counts for it too', () => {
    const whole = carriedRun(course).do(DONE, DONE).pass(300)
    const { run, at, events } = afterLosing(whole, whole.events())
    const caughtUp = counting('other')(at + 1)({ type: 'clock-caught-up', since: at, byMs: 4 * MIN })
    const found = { ...caughtUp, id: 'later', seq: 9 }
    const later = advance(course, run, [...events, found], [found])
    expect(leftWait(later)?.due).toBe(at + 14 * MIN)
  })
})

describe('somebody has to look', () => {
  test('at every lane, before anything is done there', () => {
    const whole = carriedRun(course).do(DONE)
    const { run, at } = afterLosing(whole, whole.events())
    for (const lane of ['left', 'right']) {
      expect(phaseOf(course, run, lane, at)).toMatchObject({ kind: 'stopped', stop: { kind: 'entries-lost' } })
    }
    const stamp = counting('other-2')
    expect(decide(course, run, DONE, at, stamp(at))).toMatchObject({
      kind: 'refused',
      refusal: { reason: 'needs-correction' }
    })
    const looked = decide(course, run, { type: 'correct', lane: 'left', action: 'Looked.' }, at, stamp(at))
    expect(looked.events[0]).toMatchObject({ type: 'corrected', lane: 'left', redo: null })
  })

  test('and may take back what counts though it was never done', () => {
    const whole = carriedRun(course).do(DONE)
    const { run, at } = afterLosing(whole, whole.events())
    const decision = decide(course, run, { type: 'take-back' }, at, counting('other-2')(at))
    expect(decision).toMatchObject({ kind: 'accepted', events: [{ type: 'taken-back' }] })
  })

  test('a bad answer still has to be put right, and still cannot be taken back', () => {
    const one = aCourse(
      '  - {stage: A, steps: [{step: look, on: [left], say: Look., hands: 1 s, ask: {question: Is it clean?, if not: [Wash it.]}}]}'
    )
    const whole = carriedRun(one).do(NO)
    const { run, at } = afterLosing(whole, whole.events(), one)
    expect(callAt(one, run, at)).toMatchObject({ kind: 'stopped', stop: { kind: 'bad-answer' } })
    expect(decide(one, run, { type: 'take-back' }, at, counting('other-2')(at)).kind).toBe('refused')
  })
})

describe('gaps in the own count', () => {
  const stamp = counting()(1000)
  const five = Array.from({ length: 5 }, () => stamp({ type: 'paused' }))

  test('none in a whole run, whatever the order, and whatever other devices sent', () => {
    const theirs = { ...five[0], id: 'theirs', device: 'phone', seq: 40 } as RunEvent
    expect(gapsIn([...five].reverse(), 'tablet')).toBe(0)
    expect(gapsIn([...five, theirs], 'tablet')).toBe(0)
    expect(gapsIn([], 'tablet')).toBe(0)
  })

  test('one for each that is missing, until somebody has gone on without them', () => {
    const left = five.filter(({ seq }) => seq !== 1 && seq !== 3)
    expect(gapsIn(left, 'tablet')).toBe(2)
    const loss = { ...stamp({ type: 'entries-lost', ids: [], gaps: 2 }), seq: 9 }
    expect(gapsIn([...left, loss], 'tablet')).toBe(0)
    expect(gapsIn([...left, loss, { ...stamp({ type: 'paused' }), seq: 11 }], 'tablet')).toBe(1)
  })
})
