import fc from 'fast-check'
import { describe, expect, it, test } from 'vitest'
import { aCourse, EVERYTHING, aProcedure } from '../../../../tests/helpers/a-procedure.ts'
import { carriedRun, DONE, type CarriedRun } from '../../../../tests/helpers/a-run.ts'
import { counting, STARTED } from '../../../../tests/helpers/stamping.ts'
import { anyProcedureWithoutMaxima } from '../../../../tests/helpers/any-procedure.ts'
import { timedRun } from '../../../../tests/plan/times/timed-run.ts'
import { layOut } from '../../procedure/course.ts'
import type { RunEvent, RunFact } from '../../run/event.ts'
import { timesInRun } from './times-in-run.ts'

const CHANGE_MS = 5000
const TWO_SIDES = aCourse(`  - stage: Clean
    steps:
      - {step: fill, say: Fill the hopper., hands: 30 s, wait: {for: soak, at least: 2 min, source: Common practice}}
      - {step: drain, say: Drain it., hands: 20 s}
      - {step: wipe, say: Wipe it., hands: 20 s}`)

const timesOf = (carried: CarriedRun) =>
  timesInRun(carried.course, carried.events(), CHANGE_MS).map(({ step, seconds }) => [step, seconds])

test('gives, of whatever procedure and whatever breaks in, the times that were really worked', () => {
  fc.assert(
    fc.property(anyProcedureWithoutMaxima, fc.infiniteStream(fc.nat(999)), (procedure, chance) => {
      const { course, events, worked } = timedRun(layOut(procedure), () => Number(chance.next().value), CHANGE_MS)
      expect(timesInRun(course, events, CHANGE_MS)).toEqual(worked)
    }),
    { numRuns: 100 }
  )
})

describe('a step', () => {
  it('takes from the last thing done, or from the end of its wait, less the way from the other side', () => {
    const run = carriedRun(TWO_SIDES)
      .pass(31)
      .do(DONE)
      .pass(5 + 33)
      .do(DONE)
      .pass(82)
      .pass(25)
    run.do({ type: 'acknowledge-wait', lane: 'left' }).pass(21).do(DONE)
    expect(timesOf(run)).toEqual([
      ['fill', 31],
      ['fill', 33],
      ['drain', 21]
    ])
  })

  it('tells who did it, on which machine, in which run and when', () => {
    const run = carriedRun(TWO_SIDES).pass(31).do(DONE)
    expect(timesInRun(TWO_SIDES, run.events(), CHANGE_MS)).toEqual([
      { step: 'fill', operator: 'Ada', machine: 'Freezer 1', run: 'run', seconds: 31, at: 1_031_000 }
    ])
  })

  it('does not take the time of a pause', () => {
    const run = carriedRun(TWO_SIDES).pass(10).do({ type: 'pause' }).pass(600).do({ type: 'resume' }).pass(20).do(DONE)
    expect(timesOf(run)).toEqual([['fill', 30]])
  })

  it('is timed whether its check is answered well or badly, but not when it is answered again', () => {
    const course = layOut(aProcedure(EVERYTHING))
    const { events } = timedRun(course, () => 0, CHANGE_MS)
    const readings = events.filter((event) => event.type === 'check-answered' && event.step === 'strength')
    expect(readings.map((event) => event.type === 'check-answered' && event.good)).toEqual([false, true, true])
    const times = timesInRun(course, events, CHANGE_MS).filter(({ step }) => step === 'strength')
    expect(times.length).toBe(2)
  })
})

describe('is left out:', () => {
  const first = () => carriedRun(TWO_SIDES).pass(20)
  it.each<readonly [string, CarriedRun]>([
    ['a step handed over midway', first().do({ type: 'hand-over', to: 'Ben' }).pass(10).do(DONE)],
    [
      'a step in which a problem was put right',
      first()
        .do({ type: 'report-problem', lane: 'left', text: 'leak' })
        .pass(60)
        .do({ type: 'correct', lane: 'left', action: 'mended' })
        .pass(10)
        .do(DONE)
    ]
  ])('%s', (_, run) => {
    expect(timesOf(run)).toEqual([])
    expect(timesOf(run.pass(5 + 40).do(DONE))).toEqual([['fill', 40]])
  })

  it('a step taken back, and what was in hand then', () => {
    const run = first().do(DONE).pass(10).do({ type: 'take-back' }).pass(30).do(DONE)
    expect(timesOf(run.pass(5 + 20).do(DONE))).toEqual([])
    expect(run.events().filter(({ type }) => type === 'step-done').length).toBe(3)
    expect(timesOf(run.pass(200).do({ type: 'acknowledge-wait', lane: 'left' }).pass(22).do(DONE))).toEqual([
      ['drain', 22]
    ])
  })

  it('a step left midway for the other side, though not what was done there', () => {
    const run = first()
      .do({ type: 'choose-lane', lane: 'right' })
      .pass(5 + 33)
      .do(DONE)
    run
      .do({ type: 'choose-lane', lane: 'left' })
      .pass(5 + 12)
      .do(DONE)
    expect(timesOf(run)).toEqual([['fill', 33]])
  })

  /** A device that slept: its time stood still, and the server says by how much. */
  it('what a device timed while its clock lagged behind, or somebody moved it', () => {
    const lagged = (byMs: number, since = 0) => withFact(first().do(DONE), { type: 'clock-caught-up', since, byMs })
    expect([lagged(90_000), lagged(300), lagged(90_000, 1_021_000)].map((times) => times.length)).toEqual([0, 1, 1])
    const moved = carriedRun(TWO_SIDES).pass(10)
    const events = [...moved.events(), noted(moved, { type: 'clock-moved', byMs: 3_600_000 })]
    const done: RunFact = { type: 'step-done', lane: 'left', step: 'fill', round: 1, confirmation: 'everyday' }
    expect(timesInRun(TWO_SIDES, [...events, noted(moved.pass(20), done)], CHANGE_MS)).toEqual([])
    expect(timesInRun(TWO_SIDES, [...moved.events(), noted(moved, done)], CHANGE_MS).length).toBe(1)
  })
})

function noted(run: CarriedRun, fact: RunFact): RunEvent {
  const last = run.events().length + 10
  return { ...counting('tablet')(run.at())(fact), id: `noted ${fact.type} ${run.at()}`, seq: last }
}

function withFact(run: CarriedRun, fact: RunFact) {
  return timesInRun(TWO_SIDES, [...run.events(), noted(run, fact)], CHANGE_MS)
}

describe('two people', () => {
  it('are timed each by what their own hands did', () => {
    const [ada, ben] = [counting('tablet'), counting('phone')]
    const step = (lane: string): RunFact => ({
      type: 'step-done',
      lane,
      step: 'fill',
      round: 1,
      confirmation: 'everyday'
    })
    const events = [
      ada(0)(STARTED),
      { ...ben(10_000)({ type: 'joined', name: 'Ben' }), by: 'Ben' },
      ben(10_000)({ type: 'lane-called', lane: 'right' }),
      ada(30_000)(step('left')),
      ben(52_000)(step('right'))
    ]
    const times = timesInRun(TWO_SIDES, events.toReversed(), CHANGE_MS)
    expect(times.map(({ operator, seconds }) => [operator, seconds])).toEqual([
      ['Ada', 30],
      ['Ben', 42]
    ])
  })

  it('are not timed on what one of them left midway, and the other carried on', () => {
    const [ada, ben] = [counting('tablet'), counting('phone')]
    const done = (lane: string, step: string): RunFact => ({
      type: 'step-done',
      lane,
      step,
      round: 1,
      confirmation: 'everyday'
    })
    const events = [
      ada(0)(STARTED),
      ben(10_000)({ type: 'joined', name: 'Ben' }),
      ben(10_000)({ type: 'lane-called', lane: 'right' }),
      ada(30_000)(done('left', 'fill')),
      ada(40_000)({ type: 'left', hands: 'phone' }),
      ada(40_000)({ type: 'lane-called', lane: 'right' }),
      ada(60_000)(done('right', 'fill')),
      ada(181_000)(done('left', 'drain'))
    ]
    const times = timesInRun(TWO_SIDES, events, CHANGE_MS)
    expect(times.map(({ step, operator, seconds }) => [step, operator, seconds])).toEqual([
      ['fill', 'Ada', 30],
      ['drain', 'Ada', 31]
    ])
  })
})

test('nothing, of no events', () => {
  expect(timesInRun(TWO_SIDES, [], CHANGE_MS)).toEqual([])
})
