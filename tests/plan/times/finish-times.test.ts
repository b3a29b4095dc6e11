/** The finish by moments against plans that are carried out thousands of times, from the plain statement. */
import fc from 'fast-check'
import { describe, expect, it, test } from 'vitest'
import { planFor, type Plan, type PlanOptions } from '../../../src/core/plan/plan.ts'
import type { Problem } from '../../../src/core/plan/problem.ts'
import { finishTimes, type FinishTimes } from '../../../src/core/plan/times/finish-times.ts'
import { NO_INTERRUPTIONS } from '../../../src/core/plan/times/interruptions.ts'
import type { LearnedTimes } from '../../../src/core/plan/times/learned-times.ts'
import { anyProblem, type ProblemSize } from '../any-problem.ts'
import { carrierOf } from './carried-out-plan.ts'
import { closingProblem } from './closing-problem.ts'
import { simulatedFinish } from './simulated-finish.ts'

const EMPTY = { readyMs: 0, latestMs: null, holds: [], tasks: [] }
const A_TASK = { step: 'fill', round: 1, handsMs: 0, minMs: 0, maxMs: null, takes: [], frees: [], block: 0 }
const EXACT: PlanOptions = { budget: 100_000, slackMs: 0, firstOn: null }
const SIZE: ProblemSize = { lanes: 3, tasks: 4, machineTasks: 2, tools: true, maxima: false, midway: true }

/** Some random problems have no plan: a tool held across a whole-machine step, say. They are passed over. */
function planned(problem: Problem): Plan {
  const result = planFor(problem, EXACT)
  fc.pre(result.kind === 'plan')
  return result.plan
}

/** All steps with the same spread. */
function spreadOf({ order }: Plan, logVariance: number): Pick<LearnedTimes, 'steps' | 'interruptions'> {
  const time = { meanSeconds: 1, logMedian: 0, logVariance, count: 0 }
  return { steps: Object.fromEntries(order.map(({ step }) => [step, time])), interruptions: NO_INTERRUPTIONS }
}

const crews = fc.integer({ min: 1, max: 3 })
const withHands = (problem: Problem, hands: number): Problem => ({
  ...problem,
  hands: Array.from({ length: hands }, () => problem.hands[0] ?? null)
})

/** Largest difference of any of the three, as a share. */
function difference(ours: FinishTimes, theirs: FinishTimes): number {
  return Math.max(
    Math.abs(ours.p50 / theirs.p50 - 1),
    Math.abs(ours.p80 / theirs.p80 - 1),
    Math.abs(ours.p95 / theirs.p95 - 1)
  )
}

test('without any spread, and no maxima to hold anything back, it is what carrying the plan out takes', () => {
  fc.assert(
    fc.property(anyProblem(SIZE), crews, (given, hands) => {
      const problem = withHands(given, hands)
      const plan = planned(problem)
      const exactly = carrierOf(problem, plan.order)(plan.order.map(({ start, end }) => end - start))
      const times = finishTimes(problem, plan.order, spreadOf(plan, 0), { logMean: 0, logVariance: 0 })
      expect(times).toEqual({ p50: exactly, p80: exactly, p95: exactly })
      // For several pairs of hands the planner lets a tool come back later than it must.
      if (hands === 1) expect(exactly).toBe(plan.finish)
      else expect(exactly).toBeLessThanOrEqual(plan.finish)
    }),
    { numRuns: 300 }
  )
})

test('it never comes before what can be, and the less likely, the later', () => {
  fc.assert(
    fc.property(
      anyProblem({ ...SIZE, maxima: true }),
      crews,
      fc.double({ min: 0, max: 0.6, noNaN: true }),
      fc.double({ min: 0, max: 0.3, noNaN: true }),
      (given, hands, logVariance, paceVariance) => {
        const problem = withHands(given, hands)
        const plan = planned(problem)
        const { p50, p80, p95 } = finishTimes(problem, plan.order, spreadOf(plan, logVariance), {
          logMean: 0,
          logVariance: paceVariance
        })
        expect(p50).toBeLessThanOrEqual(p80)
        expect(p80).toBeLessThanOrEqual(p95)
        expect(p50).toBeGreaterThanOrEqual(carrierOf(problem, plan.order)(plan.order.map(() => 0)) - 1)
      }
    )
  )
})

/** A compound Poisson process (Campbell's theorem; from memory): one task of 1000 s, an interruption of 100 s every 500 s. */
test('interruptions add what they take, and spread it', () => {
  const chains = [{ ...EMPTY, lane: 'left', tasks: [{ ...A_TASK, handsMs: 1_000_000 }] }]
  const problem = { chains, machine: { ...EMPTY, lane: 'machine' }, tools: {}, changeMs: 0, hands: [null] }
  const plan = planned(problem)
  const often = { lost: 100 / 500, squared: 100 ** 2 / 500, cubed: 100 ** 3 / 500 }
  const pace = { logMean: 0, logVariance: 0 }
  const { p50, p95 } = finishTimes(problem, plan.order, { ...spreadOf(plan, 0), interruptions: often }, pace)
  // Two are expected: mean 1200 s, standard deviation 100 s times the root of two, skewness one by the root of two.
  expect(p50 / 1000).toBeGreaterThan(1200 - 141 * 0.2)
  expect(p50 / 1000).toBeLessThan(1200)
  expect(p95 / 1000).toBeGreaterThan(1200 + 141 * 1.645)
  expect(p95 / 1000).toBeLessThan(1200 + 141 * 2)
})

/** A prototype came within 0.11 % of 400,000 trials; 20,000 trials are about 0.2 % off themselves. */
describe('against simulation', () => {
  it.each([
    { steps: 60, logVariance: 0.16, pace: 0.02 },
    { steps: 60, logVariance: 0.16, pace: 0 },
    { steps: 30, logVariance: 0.16, pace: 0.02 },
    { steps: 60, logVariance: 0.3, pace: 0.08 }
  ])('two sides of $steps steps, variances $logVariance and $pace: within 0.5 %', ({ steps, logVariance, pace }) => {
    for (const seed of [1, 2]) {
      const problem = closingProblem(steps, seed)
      const plan = planned(problem)
      const ours = finishTimes(problem, plan.order, spreadOf(plan, logVariance), { logMean: 0, logVariance: pace })
      const spreads = { tasks: plan.order.map(() => logVariance), pace }
      expect(difference(ours, simulatedFinish(problem, plan.order, spreads, 20_000, seed))).toBeLessThan(0.005)
    }
  })

  // P95 of a lone lognormal step is 0.6 % off itself in 20,000 trials (1.4 % in 4000). Of 2500 such problems one in a
  // hundred was 0.9 % off, the worst 1.9 %; a single step beside lanes that end at once, which few of them are, 5 %.
  it('any small problem, where single steps weigh most: within 6 %', () => {
    fc.assert(
      fc.property(anyProblem(SIZE), crews, (given, hands) => {
        const problem = withHands(given, hands)
        const plan = planned(problem)
        fc.pre(plan.finish > 0)
        const ours = finishTimes(problem, plan.order, spreadOf(plan, 0.16), { logMean: 0, logVariance: 0.02 })
        const spreads = { tasks: plan.order.map(() => 0.16), pace: 0.02 }
        expect(difference(ours, simulatedFinish(problem, plan.order, spreads, 20_000, 1))).toBeLessThan(0.06)
      }),
      { numRuns: 50 }
    )
  })
})
