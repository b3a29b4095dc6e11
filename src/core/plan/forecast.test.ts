import { describe, expect, test } from 'vitest'
import { aCourse } from '../../../tests/helpers/a-procedure.ts'
import { carriedRun, DONE, type CarriedRun } from '../../../tests/helpers/a-run.ts'
import type { LaneId } from '../procedure/procedure.ts'
import { FIRST_HANDS, handsOf } from '../run/run.ts'
import { forecast, forecaster } from './forecast.ts'
import { readyTimes, reasonFor, lateIn, type Outlook } from './outlook.ts'
import { NO_INTERRUPTIONS } from './times/interruptions.ts'
import { AS_STATED, problemOf } from './problem-of-run.ts'

const MINUTE = 60_000
const TIMES = { steps: {}, interruptions: NO_INTERRUPTIONS, pace: { logMean: 0, logVariance: 0.02 } }

function outlookOf(run: CarriedRun): Outlook {
  const { focus } = handsOf(run.run(), FIRST_HANDS)
  return { at: run.at(), forecast: forecast(problemOf(run.course, run.run(), run.at(), AS_STATED), focus, TIMES) }
}
const why = (run: CarriedRun, lane: LaneId) => reasonFor(run.run(), FIRST_HANDS, lane, outlookOf(run))

/** The left has a long wait, the right a short one. */
const UNEVEN = `  - stage: A
    steps:
      - {step: short, on: right, say: Pour., hands: 1 min, wait: {for: soak, at least: 1 min, source: Label}}
      - {step: long, on: left, say: Pour., hands: 1 min, wait: {for: soak, at least: 20 min, source: Label}}
      - {step: rinse, say: Rinse it., hands: 5 min}`

describe('why here', () => {
  test('the lane whose wait is longest is served first, and going elsewhere first would end later', () => {
    const run = carriedRun(aCourse(UNEVEN))
    expect(why(run, 'left')).toEqual({ kind: 'sooner', lane: 'right', laterMs: expect.any(Number), wait: 20 * MINUTE })
  })

  test('nothing else can be done while the other lane waits', () => {
    const run = carriedRun(aCourse(UNEVEN)).do({ type: 'choose-lane', lane: 'left' }).pass(60).do(DONE)
    expect(run.run().lanes['left']?.waiting).not.toBeNull()
    expect(why(run, 'right')).toEqual({ kind: 'only-work' })
  })

  test('somebody asked for it', () => {
    const run = carriedRun(aCourse(UNEVEN)).do({ type: 'choose-lane', lane: 'right' })
    expect(why(run, 'right')).toEqual({ kind: 'chosen' })
  })

  test('a lane that must go on in time says until when', () => {
    const course = aCourse(`  - stage: A
    steps:
      - {step: soak, say: Soak it., hands: 10 s, wait: {for: soak, at least: 1 min, at most: 3 min, source: Label}}
      - {step: rinse, say: Rinse it., hands: 1 min}`)
    const run = carriedRun(course).do(DONE).pass(10).do(DONE).pass(60)
    const lane = 'left'
    run.do({ type: 'acknowledge-wait', lane })
    const latest = run.run().lanes[lane]?.waiting?.latest ?? 0
    expect(why(run, lane)).toEqual({ kind: 'limit', before: latest })
  })

  test('two equal lanes: the order makes no difference', () => {
    const course = aCourse('  - {stage: A, steps: [{step: wipe, say: Wipe it., hands: 1 min}]}')
    expect(why(carriedRun(course), 'left')).toEqual({ kind: 'fewer-changes' })
  })
})

test('ready when the plan is over, counted from now; sooner or later as times vary', () => {
  const run = carriedRun(aCourse(UNEVEN))
  const ready = readyTimes(outlookOf(run))
  // 1 min on the left, its 20 min, then 5 min more there: everything else fits in between.
  const planned = run.at() + 26 * MINUTE
  // Half of the runs end before what is the mean, since times are skewed.
  expect(ready?.p50).toBeLessThan(planned)
  expect(ready?.p50).toBeGreaterThan(planned - 2 * MINUTE)
  expect(ready?.p80).toBeGreaterThan(planned)
  expect(ready?.p95).toBeGreaterThan(ready?.p80 ?? 0)
})

test('how times vary not being known, no time is promised', () => {
  const run = carriedRun(aCourse(UNEVEN))
  const problem = problemOf(run.course, run.run(), run.at(), AS_STATED)
  expect(readyTimes({ at: run.at(), forecast: forecast(problem, null, null) })).toBeNull()
})

test('a maximum that cannot be kept any more is named, with how late at best', () => {
  const course = aCourse(`  - stage: A
    steps:
      - {step: soak, say: Soak it., hands: 10 s, wait: {for: soak, at least: 1 min, at most: 2 min, source: Label}}
      - {step: rinse, say: Rinse it., hands: 5 min}`)
  // Both waits end together, and the first rinse takes longer than the second side may wait.
  const run = carriedRun(course).do(DONE).do(DONE).pass(100)
  expect(lateIn(outlookOf(run))).toMatchObject({ step: 'rinse', lateMs: expect.any(Number) })
  expect(lateIn(outlookOf(run))?.lateMs).toBeGreaterThan(4 * MINUTE)
})

test('what is remembered of earlier plans changes none', () => {
  const remembering = forecaster()
  const run = carriedRun(aCourse(UNEVEN))
  for (let step = 0; step < 40; step += 1) {
    const problem = problemOf(run.course, run.run(), run.at(), AS_STATED)
    const { focus } = handsOf(run.run(), FIRST_HANDS)
    expect(remembering(problem, focus, TIMES)).toEqual(forecast(problem, focus, TIMES))
    run.pass(45).do(step % 3 === 0 ? { type: 'call-hands' } : DONE)
  }
  expect(run.call().kind).toBe('finished')
})
