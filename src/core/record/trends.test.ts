import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { aCourse } from '../../../tests/helpers/a-procedure.ts'
import { carriedRun, DONE } from '../../../tests/helpers/a-run.ts'
import { counting } from '../../../tests/helpers/stamping.ts'
import { makeRecord } from './make-record.ts'
import { runFigures, type RunFigures } from './run-figures.ts'
import { trendsOf } from './trends.ts'

const COURSE = aCourse(`  - stage: Clean
    steps:
      - step: fill
        say: Fill it.
        hands: 20 s
        wait: {for: contact, at least: 1 min, source: Product label}
      - step: strength
        on: whole machine
        say: Dip a strip.
        hands: 15 s
        read: {question: What does it read?, reading: strength, unit: ppm, at least: 100, at most: 200, source: The label, if not: [Remix it.]}`)
const ppm = (value: number) => ({ kind: 'reading', value, unit: '[ppm]' }) as const

/** One attempt to cut a wait short, one bad reading, put right. */
function carriedOut() {
  const run = carriedRun(COURSE)
  run.pass(30).do(DONE).pass(30).do(DONE).do({ type: 'choose-lane', lane: 'left' }).pass(100)
  for (const lane of ['left', 'right']) run.do({ type: 'acknowledge-wait', lane })
  run
    .pass(20)
    .do({ type: 'answer', answer: ppm(80) })
    .pass(10)
    .do({ type: 'correct', lane: 'machine', action: 'Remix it.' })
  return run.pass(20).do({ type: 'answer', answer: ppm(150) })
}

test('one run tells what was read, tried and corrected, and where the time went', () => {
  const run = carriedOut()
  const record = makeRecord(COURSE, run.events())
  if (!record) throw new Error('There is a record.')
  const figures = runFigures(record)
  expect(figures).toMatchObject({
    durationSeconds: 210,
    attempts: 1,
    corrections: 1,
    readings: [
      { kind: 'strength', value: 80, good: false },
      { kind: 'strength', value: 150, good: true }
    ]
  })
  // Thirty seconds on the left, and thirty on the right less five for going there.
  expect(figures.steps.find(({ step }) => step === 'fill')).toMatchObject({ seconds: 55, planned: 40 })
})

test('a reading that was written down wrong counts as it should have been', () => {
  const events = carriedOut().events()
  const entry = events.findLast(({ type }) => type === 'check-answered')?.id ?? ''
  const amended = counting('office')(9_000_000)({
    type: 'amended',
    entry,
    was: ppm(150),
    now: ppm(250),
    reason: 'Misread.'
  })
  const record = makeRecord(COURSE, [...events, amended])
  if (!record) throw new Error('There is a record.')
  expect(runFigures(record).readings.at(-1)).toMatchObject({ value: 250, good: false })
})

describe('many runs', () => {
  const anyRun: fc.Arbitrary<RunFigures> = fc.record({
    run: fc.uuid(),
    machine: fc.constant('Freezer 1'),
    procedure: fc.constantFrom('a', 'b'),
    zone: fc.constant('UTC'),
    startedAt: fc.nat(1_000_000),
    durationSeconds: fc.option(fc.nat(10_000)),
    attempts: fc.nat(5),
    corrections: fc.nat(5),
    readings: fc.array(
      fc.record({
        kind: fc.constant('strength' as const),
        unit: fc.constantFrom('[ppm]' as const, 'Cel' as const),
        value: fc.nat(300),
        good: fc.boolean()
      }),
      { maxLength: 4 }
    ),
    steps: fc.uniqueArray(
      fc.record({
        step: fc.constantFrom('fill', 'soak'),
        say: fc.constant({ en: 'Do.' }),
        seconds: fc.nat(99),
        planned: fc.nat(99)
      }),
      { selector: ({ step }) => step }
    )
  })

  test('every figure stands in one series, in the order of time, and nothing is made up', () => {
    fc.assert(
      fc.property(fc.array(anyRun), (runs) => {
        const trends = trendsOf(runs)
        const readings = trends.readings.flatMap(({ points }) => points)
        expect(readings).toHaveLength(runs.flatMap((run) => run.readings).length)
        expect(trends.attempts.reduce((sum, { value }) => sum + value, 0)).toBe(
          runs.reduce((sum, run) => sum + run.attempts, 0)
        )
        for (const series of [trends.attempts, trends.duration, ...trends.readings.map(({ points }) => points)]) {
          const times = series.map(({ at }) => at)
          expect(times).toEqual(times.toSorted((a, b) => a - b))
        }
        const costs = trends.steps.map(({ seconds }) => seconds)
        expect(costs).toEqual(costs.toSorted((a, b) => b - a))
      })
    )
  })

  test('the step that costs the most comes first, by its median', () => {
    const run = (seconds: number, other: number): RunFigures => ({
      ...{
        run: 'r',
        machine: 'm',
        procedure: 'a',
        zone: 'UTC',
        startedAt: 1,
        durationSeconds: 1,
        attempts: 0,
        corrections: 0
      },
      readings: [],
      steps: [
        { step: 'fill', say: {}, seconds, planned: 20 },
        { step: 'wipe', say: {}, seconds: other, planned: 20 }
      ]
    })
    const { steps } = trendsOf([run(10, 30), run(900, 31), run(12, 32)])
    expect(steps.map(({ step, seconds, runs }) => [step, seconds, runs])).toEqual([
      ['a wipe', 31, 3],
      ['a fill', 12, 3]
    ])
  })
})
