import fc from 'fast-check'
import { describe, expect, it, test } from 'vitest'
import { A_STEP } from '../../../../tests/plan/times/a-step.ts'
import { learnedAssumptions } from './learned-assumptions.ts'
import { learnedTimes, type LearnedTimes, type StepTime } from './learned-times.ts'
import { paceOf } from './pace.ts'
import type { TimeSample } from './time-sample.ts'

const FILL = { id: 'fill', handsSeconds: 30 }
const WIPE = { id: 'wipe', handsSeconds: 60 }
const STEPS = [FILL, WIPE]
const ADA = { machine: 'Freezer 1', operator: 'Ada' }
const BEN = { ...ADA, operator: 'Ben' }

/** One time of a step in each of some runs. */
function runs(step: string, times: readonly number[], who = ADA, first = 0): readonly TimeSample[] {
  return times.map((seconds, index) => ({
    step,
    ...who,
    run: `${who.operator} ${who.machine} ${first + index}`,
    seconds,
    at: first + index
  }))
}

function timeOf({ steps }: LearnedTimes, step: string): StepTime {
  const time = steps[step]
  if (!time) throw new Error(step)
  return time
}

const median = (learned: LearnedTimes, step: string) => Math.exp(timeOf(learned, step).logMedian)

describe('without records', () => {
  const learned = learnedTimes([], STEPS, ADA)

  it('is what the author stated, to the millisecond', () => {
    expect(timeOf(learned, 'fill')).toMatchObject({ meanSeconds: expect.closeTo(30, 9), count: 0 })
    const { handsMs, changeMs } = learnedAssumptions(learned, learned.pace, 5000)
    expect([...STEPS.map((step) => handsMs('left', { ...A_STEP, ...step })), changeMs]).toEqual([30_000, 60_000, 5000])
  })

  it('leaves a step that takes no hands alone, and goes by the author for one that it was not asked about', () => {
    const none = learnedTimes([], [{ id: 'look', handsSeconds: 0 }], ADA)
    const { handsMs } = learnedAssumptions(none, none.pace, 0)
    expect([0, 20].map((handsSeconds) => handsMs('left', { ...A_STEP, id: 'look', handsSeconds }))).toEqual([0, 20_000])
  })
})

const anySeconds = fc.double({ min: 6, max: 150, noNaN: true })

test('the more runs took the same, the closer to that, and never past it', () => {
  fc.assert(
    fc.property(anySeconds, fc.integer({ min: 1, max: 30 }), (seconds, count) => {
      const after = (n: number) =>
        median(
          learnedTimes(
            runs(
              'fill',
              Array.from({ length: n }, () => seconds)
            ),
            STEPS,
            ADA
          ),
          'fill'
        )
      const [before, fewer, more] = [after(0), after(count), after(count + 1)]
      const target = Math.log(seconds)
      const away = (value: number) => Math.abs(Math.log(value) - target)
      expect(away(more)).toBeLessThanOrEqual(away(fewer) + 1e-5)
      expect(away(fewer)).toBeLessThanOrEqual(away(before) + 1e-5)
      expect(Math.sign(Math.log(more) - target) * Math.sign(Math.log(before) - target)).toBeGreaterThanOrEqual(
        away(more) < 1e-4 ? -1 : 0
      )
    })
  )
})

test('many runs are believed, however far off the stated time is', () => {
  const mostly = Array.from({ length: 40 }, (_, index) => 150 + (index % 5) * 10)
  const learned = median(learnedTimes(runs('fill', mostly), STEPS, ADA), 'fill')
  expect(learned).toBeGreaterThan(160)
  expect(learned).toBeLessThan(175)
})

test('the same whatever order the samples come in', () => {
  const sample = fc.record({
    step: fc.constantFrom('fill', 'wipe', 'gone'),
    machine: fc.constantFrom('one', 'two'),
    operator: fc.constantFrom('Ada', 'Ben'),
    run: fc.constantFrom('r1', 'r2', 'r3'),
    seconds: anySeconds,
    at: fc.nat(1000)
  })
  fc.assert(
    fc.property(fc.array(sample, { maxLength: 25 }), (samples) => {
      const forwards = learnedTimes(samples, STEPS, ADA)
      const backwards = learnedTimes(samples.toReversed(), STEPS, ADA)
      for (const step of ['fill', 'wipe']) {
        expect(timeOf(backwards, step).logMedian).toBeCloseTo(timeOf(forwards, step).logMedian, 4)
        expect(timeOf(backwards, step).logVariance).toBeCloseTo(timeOf(forwards, step).logVariance, 4)
      }
    })
  )
})

test('more samples never make a step, or a day, less well known than none', () => {
  fc.assert(
    fc.property(fc.array(fc.double({ min: 20, max: 45, noNaN: true }), { minLength: 12, maxLength: 30 }), (times) => {
      const none = learnedTimes([], STEPS, ADA)
      const some = learnedTimes(runs('fill', times), STEPS, ADA)
      expect(timeOf(some, 'fill').logVariance).toBeLessThan(timeOf(none, 'fill').logVariance)
      expect(some.pace.logVariance).toBeLessThan(none.pace.logVariance)
    })
  )
})

describe('interruptions', () => {
  const usual = [29, 31, 30, 28, 33, 30, 27, 32, 30, 31]

  it('one in ten, twenty times as long, moves the time by less than a tenth, where the mean would triple', () => {
    const clean = learnedTimes(runs('fill', usual), STEPS, ADA)
    const disturbed = learnedTimes(runs('fill', [...usual.slice(1), 600]), STEPS, ADA)
    expect(median(disturbed, 'fill') / median(clean, 'fill')).toBeLessThan(1.1)
    expect(timeOf(disturbed, 'fill').meanSeconds).toBeLessThan(36)
  })

  it('nor does one that was ticked off at once, or in no time at all', () => {
    const clean = learnedTimes(runs('fill', usual), STEPS, ADA)
    const hasty = learnedTimes(runs('fill', [...usual.slice(1), 0.5]), STEPS, ADA)
    expect(median(hasty, 'fill') / median(clean, 'fill')).toBeGreaterThan(0.9)
    expect(learnedTimes(runs('fill', [...usual, 0, -5]), STEPS, ADA)).toEqual(clean)
  })
})

describe('people and machines', () => {
  const steps = Array.from({ length: 10 }, (_, index) => ({ id: `step-${index}`, handsSeconds: 30 }))
  const manyRuns = (who: typeof ADA, seconds: number, ids: readonly string[]) =>
    ids.flatMap((id) =>
      runs(
        id,
        Array.from({ length: 12 }, (_, run) => seconds * (run % 2 === 0 ? 1.05 : 0.95)),
        who
      )
    )
  const some = steps.slice(0, 8).map(({ id }) => id)

  it('who is quick at other steps is expected to be quick at one they have not done', () => {
    const samples = [...manyRuns(ADA, 24, some), ...manyRuns(BEN, 36, some)]
    const [ada, ben] = [ADA, BEN].map((who) => median(learnedTimes(samples, steps, who), 'step-9'))
    expect((ben ?? 0) / (ada ?? 1)).toBeGreaterThan(1.2)
    expect((ben ?? 0) / (ada ?? 1)).toBeLessThan(1.5)
  })

  it('somebody new is expected to be between them, with more doubt', () => {
    const samples = [...manyRuns(ADA, 24, some), ...manyRuns(BEN, 36, some)]
    const [ada, ben, cleo] = [ADA, BEN, { ...ADA, operator: 'Cleo' }].map((who) => learnedTimes(samples, steps, who))
    if (!ada || !ben || !cleo) throw new Error('three were asked for')
    expect(median(cleo, 'step-0')).toBeGreaterThan(median(ada, 'step-0'))
    expect(median(cleo, 'step-0')).toBeLessThan(median(ben, 'step-0'))
    expect(cleo.pace.logVariance).toBeGreaterThan(ada.pace.logVariance)
  })

  it('a slow machine makes every step on it slow', () => {
    const slow = { ...ADA, machine: 'Freezer 2' }
    const samples = [...manyRuns(ADA, 30, some), ...manyRuns(slow, 42, some)]
    const [here, there] = [ADA, slow].map((where) => median(learnedTimes(samples, steps, where), 'step-9'))
    expect((there ?? 0) / (here ?? 1)).toBeGreaterThan(1.1)
  })

  it('goes by the newest sixty runs', () => {
    const old = runs(
      'fill',
      Array.from({ length: 60 }, () => 90)
    )
    const now = runs(
      'fill',
      Array.from({ length: 60 }, () => 30),
      ADA,
      60
    )
    expect(learnedTimes([...old, ...now], STEPS, ADA)).toEqual(learnedTimes(now, STEPS, ADA))
  })
})

describe('the pace of today', () => {
  const learned = learnedTimes([], STEPS, ADA)

  it('is the usual before anything is done', () => {
    expect(paceOf(learned, [])).toEqual(learned.pace)
    expect(paceOf(learned, runs('gone', [5]))).toEqual(learned.pace)
  })

  /** The mean of two sources, weighed by how sure each is (Gelman and others, Bayesian Data Analysis, 2.5; from memory). */
  it('after one step, lies between the usual and that step, weighed by their variances', () => {
    const { logMedian, logVariance } = timeOf(learned, 'fill')
    const usual = learned.pace.logVariance
    const pace = paceOf(learned, runs('fill', [Math.exp(logMedian) * 1.5]))
    expect(pace.logMean).toBeCloseTo((Math.log(1.5) * usual) / (usual + logVariance), 9)
    expect(pace.logVariance).toBeCloseTo((usual * logVariance) / (usual + logVariance), 9)
  })

  it('of a whole run half as fast makes what is left take nearly twice as long, whatever one interruption says', () => {
    const medians = { fill: median(learned, 'fill'), wipe: median(learned, 'wipe') }
    const slow = Array.from({ length: 20 }, () => [
      ...runs('fill', [medians.fill * 2]),
      ...runs('wipe', [medians.wipe * 2])
    ]).flat()
    const pace = paceOf(learned, [...slow, ...runs('wipe', [medians.wipe * 40])])
    expect(Math.exp(pace.logMean)).toBeGreaterThan(1.75)
    expect(Math.exp(pace.logMean)).toBeLessThan(2.05)
    const { handsMs } = learnedAssumptions(learned, pace, 0)
    expect(handsMs('left', { ...A_STEP, ...FILL })).toBe(Math.round(30_000 * Math.exp(pace.logMean)))
  })
})
