/** What is asked of a run, and what it says to that. */
import { describe, expect, it, test } from 'vitest'
import { carriedRun, DONE, UNDERSTOOD, type CarriedRun } from '../../../tests/helpers/a-run.ts'
import { aCourse, aProcedure, EVERYTHING } from '../../../tests/helpers/a-procedure.ts'
import { counting, STARTED } from '../../../tests/helpers/stamping.ts'
import { layOut } from '../procedure/course.ts'
import { callAt } from './call.ts'
import type { Command } from './command.ts'
import { decide } from './decide.ts'
import type { Answer } from './event.ts'
import { emptyRun, replay } from './reduce.ts'

const EVERY_COURSE = layOut(aProcedure(EVERYTHING))
const answer = (given: Answer): Command => ({ type: 'answer', answer: given })
const ppm = (value: number) => answer({ kind: 'reading', value, unit: '[ppm]' })
const yesNo = (value: 'yes' | 'no') => answer({ kind: 'yes-no', value })
const acknowledge = (lane: string): Command => ({ type: 'acknowledge-wait', lane })

function course(step: string, rest = '') {
  return aCourse(
    `  - {stage: A, steps: [{step: one, on: left, say: One., hands: 10 s, ${step}}, {step: two, on: left, say: Two., hands: 5 s}]}`,
    rest
  )
}

/** The events that a command causes, without the envelope. */
function caused(run: CarriedRun, command: Command): readonly unknown[] {
  const before = run.events().length
  run.do(command)
  return run
    .events()
    .slice(before)
    .map(({ id: _i, runId: _r, at: _a, deviceAt: _d, device: _v, seq: _s, by: _b, via: _w, ...fact }) => fact)
}

describe('"done" and "next"', () => {
  const CASES = [
    ['a caution', 'cautions: [{signal: warning, hazard: Hot., consequence: Burns., avoid: Wait.}]', 'needs-caution'],
    ['a confirming phrase', 'confirm: power is off', 'needs-confirmation'],
    ['a question', 'ask: {question: Is it clear?, if not: [Rinse.]}', 'needs-answer'],
    [
      'a reading',
      'read: {question: What?, reading: strength, unit: ppm, at least: 50, source: Label, if not: [Mix.]}',
      'needs-answer'
    ]
  ] as const

  test.each(CASES)('do not pass %s', (_, step, reason) => {
    for (const type of ['done', 'next'] as const) {
      const run = carriedRun(course(step))
      expect(caused(run, { type })).toEqual([
        { type: 'refused', command: type, lane: 'left', step: 'one', reason, remainingMs: null }
      ])
      expect(run.run().lanes['left']?.position).toBe(0)
    }
  })

  it('do not pass a wait, and leave on record how much was left of it', () => {
    const run = carriedRun(course('wait: {for: soak, at least: 1 min, source: Label}')).do(DONE).pass(20)
    expect(caused(run, { type: 'next' })).toEqual([
      { type: 'refused', command: 'next', lane: 'left', step: 'one', reason: 'wait-not-over', remainingMs: 40_000 }
    ])
    expect(caused(run.pass(39.999), DONE)).toMatchObject([{ reason: 'wait-not-over', remainingMs: 1 }])
    expect(caused(run.pass(0.001), DONE)).toMatchObject([{ type: 'step-done', step: 'two' }, { type: 'run-finished' }])
  })
})

describe('a confirming phrase', () => {
  it('is recorded with how it was given', () => {
    for (const how of ['phrase', 'held'] as const) {
      const run = carriedRun(course('confirm: power is off'))
      expect(caused(run, { type: 'confirm', how })).toEqual([
        { type: 'step-done', lane: 'left', step: 'one', round: 1, confirmation: how }
      ])
    }
  })

  it('is an everyday word where none is asked for', () => {
    const run = carriedRun(course('more: More.'))
    expect(caused(run, { type: 'confirm', how: 'held' })).toMatchObject([
      { type: 'step-done', confirmation: 'everyday' }
    ])
  })
})

describe('answers', () => {
  const reading = () =>
    carriedRun(
      course(
        'read: {question: What?, reading: strength, unit: ppm, at least: 100, at most: 200, source: Label, if not: [Mix.]}'
      )
    )

  test.each([
    [99.9, false],
    [100, true],
    [200, true],
    [200.1, false]
  ])('%d ppm where 100 to 200 is allowed is good: %s', (value, good) => {
    expect(caused(reading(), ppm(value))[0]).toMatchObject({ type: 'check-answered', good })
  })

  it('of another kind or in another unit do not fit', () => {
    const misfits: Answer[] = [
      { kind: 'yes-no', value: 'yes' },
      { kind: 'count', value: 150 },
      { kind: 'reading', value: 150, unit: '[pH]' },
      { kind: 'reading', value: Number.NaN, unit: '[ppm]' }
    ]
    for (const misfit of misfits) {
      expect(caused(reading(), answer(misfit))).toMatchObject([{ type: 'refused', reason: 'wrong-kind-of-answer' }])
    }
  })

  it('that are bad stop the lane until something was done and the answer is good', () => {
    const run = reading().do(ppm(250))
    expect(run.call()).toMatchObject({ kind: 'stopped', lane: 'left', stop: { kind: 'bad-answer' } })
    expect(caused(run, ppm(150))).toMatchObject([{ reason: 'needs-correction' }])
    expect(caused(run, { type: 'take-back' })).toMatchObject([{ reason: 'needs-correction', lane: 'left' }])
    expect(caused(run, { type: 'correct', lane: 'left', action: 'Mix.' })).toEqual([
      { type: 'corrected', lane: 'left', action: 'Mix.', redo: null }
    ])
    expect(caused(run, ppm(90))).toMatchObject([{ type: 'check-answered', round: 2, good: false }])
    run.do({ type: 'correct', lane: 'left', action: 'Mix.' }, ppm(150))
    expect(run.run().lanes['left']).toMatchObject({ position: 1, stop: null })
  })

  it('to a count are right only when nothing is missing and nothing is too many', () => {
    const counted = (value: number) => {
      const parts = 'parts: [{id: seal, name: Seal, per: side, count: 3, care: dry}]'
      const run = carriedRun(course('count: {question: How many?, parts: [seal], if not: [Look.]}', parts))
      return caused(run, answer({ kind: 'count', value }))[0]
    }
    expect([2, 3, 4].map(counted)).toMatchObject([{ good: false }, { good: true }, { good: false }])
    expect([2.5, -1].map(counted)).toMatchObject([{ type: 'refused' }, { type: 'refused' }])
  })

  it('may have to be no', () => {
    const run = carriedRun(course("ask: {question: Does it leak?, expect: 'no', if not: [Tighten it.]}"))
    expect(caused(run, yesNo('no'))[0]).toMatchObject({ good: true })
  })
})

describe('repeats', () => {
  const rounds = (atLeast: number, atMost: number) =>
    carriedRun(
      aCourse(`  - stage: A
    steps:
      - {step: rinse, on: left, say: Rinse., hands: 10 s}
      - {step: look, on: left, say: Look., hands: 5 s, ask: {question: Is it clear?}, again: {from: rinse, at least: ${atLeast}, at most: ${atMost}}}
      - {step: end, on: left, say: End., hands: 5 s}`)
    )
  const position = (run: CarriedRun) => run.run().lanes['left']?.position

  it('go on after enough good rounds and not before', () => {
    const run = rounds(2, 4).do(DONE, yesNo('yes'))
    expect(position(run)).toBe(0)
    expect(position(run.do(DONE, yesNo('yes')))).toBe(2)
  })

  it('stop the lane after the last round, and go on from there once it is put right', () => {
    const run = rounds(1, 2).do(DONE, yesNo('no'), DONE, yesNo('no'))
    expect(run.call()).toMatchObject({ kind: 'stopped', stop: { kind: 'too-many-rounds' } })
    run.do({ type: 'correct', lane: 'left', action: 'Called the supervisor.' }, yesNo('yes'))
    expect(position(run)).toBe(2)
  })
})

describe('taking back', () => {
  it('takes the last thing that counted, one at a time, on whichever lane', () => {
    const run = carriedRun(EVERY_COURSE).do(DONE, UNDERSTOOD, DONE, { type: 'choose-lane', lane: 'bench' }, DONE)
    const positions = () => ['left', 'bench'].map((lane) => run.run().lanes[lane]?.position)
    expect(positions()).toEqual([2, 1])
    run.do({ type: 'take-back' })
    expect(positions()).toEqual([2, 0])
    run.do({ type: 'take-back' })
    expect(positions()).toEqual([1, 0])
    expect(run.run().lanes['left']).toMatchObject({ waiting: null, cautioned: false })
  })

  it('begins a wait anew, so that it is never shorter', () => {
    const run = carriedRun(course('wait: {for: soak, at least: 1 min, source: Label}')).do(DONE).pass(59)
    run.do({ type: 'take-back' }, DONE)
    expect(run.run().lanes['left']?.waiting).toMatchObject({ round: 1, due: run.at() + 60_000 })
  })

  it('puts tools back where they were', () => {
    const run = carriedRun(EVERY_COURSE).do(DONE)
    expect(run.run().held).toEqual({ pail: ['left'] })
    expect(run.do({ type: 'take-back' }).run().held).toEqual({})
  })

  it('takes back a correction and a problem, too', () => {
    const run = carriedRun(EVERY_COURSE)
    run.do({ type: 'report-problem', lane: 'left', text: 'Leak' }, { type: 'correct', lane: 'left', action: 'Mended.' })
    expect(run.do({ type: 'take-back' }).call()).toMatchObject({
      kind: 'stopped',
      stop: { kind: 'problem', text: 'Leak' }
    })
    expect(run.do({ type: 'take-back' }).call()).toMatchObject({ kind: 'step', lane: 'left' })
    expect(caused(run, { type: 'take-back' })).toMatchObject([{ reason: 'nothing-to-take-back' }])
  })
})

describe('alarms', () => {
  it('are answered once the wait is over, once', () => {
    const run = carriedRun(course('wait: {for: soak, at least: 1 min, source: Label}'))
    expect(caused(run, acknowledge('left'))).toMatchObject([{ reason: 'not-asked' }])
    run.do(DONE)
    expect(caused(run, acknowledge('left'))).toMatchObject([{ reason: 'wait-not-over', remainingMs: 60_000 }])
    run.pass(61)
    expect(caused(run, acknowledge('left'))).toEqual([
      { type: 'wait-acknowledged', lane: 'left', step: 'one', round: 1 }
    ])
    expect(caused(run, acknowledge('left'))).toEqual([])
  })

  it('of a last wait end the run when they are answered', () => {
    const last = aCourse(
      '  - {stage: A, steps: [{step: dry, on: bench, say: Hang it up., hands: 5 s, wait: {for: dry, at least: 1 min, source: Label}}]}'
    )
    const run = carriedRun(last).do(DONE).pass(60)
    expect(run.run().status).toBe('running')
    expect(caused(run, acknowledge('bench'))).toMatchObject([{ type: 'wait-acknowledged' }, { type: 'run-finished' }])
  })
})

describe('a pause', () => {
  it('stops the work, not the clocks, and is asked for once', () => {
    const run = carriedRun(EVERY_COURSE).do({ type: 'call-hands' })
    expect(caused(run, { type: 'resume' })).toEqual([])
    expect(caused(run, { type: 'pause' })).toEqual([{ type: 'paused' }])
    expect(caused(run, { type: 'pause' })).toEqual([])
    expect(caused(run, DONE)).toMatchObject([{ reason: 'paused' }])
    expect(caused(run, { type: 'resume' })).toEqual([{ type: 'resumed' }])
  })
})

describe('where the hands are sent', () => {
  it('is on record only when it changes', () => {
    const run = carriedRun(EVERY_COURSE)
    expect(caused(run, { type: 'call-hands' })).toEqual([{ type: 'lane-called', lane: 'left' }])
    expect(caused(run, { type: 'call-hands' })).toEqual([])
    expect(caused(run, { type: 'choose-lane', lane: 'nowhere' })).toMatchObject([
      { reason: 'unknown-lane', lane: 'nowhere' }
    ])
    expect(caused(run, { type: 'choose-lane', lane: 'machine' })).toMatchObject([{ reason: 'lane-at-barrier' }])
    expect(caused(run, { type: 'choose-lane', lane: 'bench' })).toEqual([{ type: 'lane-chosen', lane: 'bench' }])
  })

  it('is refused for a lane whose tool another one holds', () => {
    const run = carriedRun(EVERY_COURSE).do(DONE)
    expect(caused(run, { type: 'choose-lane', lane: 'right' })).toMatchObject([
      { type: 'refused', reason: 'tool-in-use', lane: 'right', step: 'fill' }
    ])
  })

  it('is ended by the end of the run', () => {
    const merged = carriedRun(aCourse('  - {stage: A, steps: [{step: one, say: One., hands: 5 s}]}')).do(DONE, DONE)
    expect(merged.events().map(({ type }) => type)).toEqual([
      'run-started',
      'step-done',
      'lane-called',
      'step-done',
      'run-finished'
    ])
  })
})

it('refuses everything before the start', () => {
  const decision = decide(EVERY_COURSE, emptyRun(EVERY_COURSE, 'run'), DONE, 0, counting()(0))
  expect(decision).toMatchObject({ kind: 'refused', refusal: { reason: 'not-started' } })
})

it('finds the end that two devices reached together without seeing it', () => {
  const ends = aCourse('  - {stage: A, steps: [{step: one, say: One., hands: 5 s}]}')
  const [tablet, phone] = [counting('tablet'), counting('phone')]
  const done = (lane: string) => ({ type: 'step-done', lane, step: 'one', round: 1, confirmation: 'everyday' }) as const
  // Each did the last step of one side and knew nothing of the other, so nobody has said that the run is over.
  const merged = replay(ends, 'run', [tablet(0)(STARTED), tablet(1000)(done('left')), phone(1000)(done('right'))])
  expect(merged.status).toBe('running')
  expect(callAt(ends, merged, 2000)).toEqual({ kind: 'finished' })
  expect(decide(ends, merged, { type: 'call-hands' }, 2000, tablet(2000)).events).toMatchObject([
    { type: 'run-finished' }
  ])
})
