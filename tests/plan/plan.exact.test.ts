/** The planner against judges that share nothing with it: one tries every order, one is a general solver. */
import fc from 'fast-check'
import highsLoader from 'highs'
import { beforeAll, describe, expect, test } from 'vitest'
import { planFor, type PlanOptions } from '../../src/core/plan/plan.ts'
import type { Problem } from '../../src/core/plan/problem.ts'
import { anyProblem, type ProblemSize } from './any-problem.ts'
import { bruteForced } from './brute-force.ts'
import { stated } from './problem-statement.ts'
import { wrongInPlan } from './valid-plan.ts'
import { solvedByHighs } from './solver-model.ts'

const EXACT: PlanOptions = { budget: 1_000_000, slackMs: 0, firstOn: null }
let highs: Awaited<ReturnType<typeof highsLoader>>
beforeAll(async () => {
  highs = await highsLoader()
})

const SIZE: ProblemSize = { lanes: 2, tasks: 3, machineTasks: 0, tools: false, maxima: false, midway: false }

/** Finish and changes of a plan that keeps every maximum, or how late it must be. */
function outcome(problem: Problem) {
  const planned = planFor(problem, EXACT)
  if (planned.kind === 'fault') return { kind: 'fault', fault: planned.fault.kind } as const
  const { finish, lowerBound, switches, limits } = planned.plan
  expect(lowerBound).toBe(finish)
  expect(wrongInPlan(stated(problem), planned.plan)).toEqual([])
  return limits.kind === 'kept' ? ({ kind: 'kept', finish, switches } as const) : ({ ...limits, finish } as const)
}

describe('against every order there is', () => {
  test.each<readonly [string, ProblemSize, number]>([
    ['two lanes', SIZE, 100],
    ['two lanes with maxima', { ...SIZE, maxima: true }, 150],
    ['two lanes with maxima, midway', { ...SIZE, maxima: true, midway: true }, 150],
    ['two lanes with a tool', { ...SIZE, tools: true, maxima: true }, 150],
    ['two lanes and the whole machine', { ...SIZE, machineTasks: 2, maxima: true, midway: true }, 150],
    ['three lanes', { ...SIZE, lanes: 3, tasks: 2, maxima: true, tools: true }, 100],
    [
      'three lanes and the whole machine',
      { ...SIZE, lanes: 3, tasks: 2, machineTasks: 1, maxima: true, midway: true },
      60
    ]
  ])('%s: the same finish and the same number of changes', (_, size, numRuns) => {
    fc.assert(
      fc.property(anyProblem(size), (problem) => {
        const best = bruteForced(stated(problem))
        const ours = outcome(problem)
        if (best) expect(ours).toEqual({ kind: 'kept', ...best })
        else expect(ours.kind).not.toBe('kept')
      }),
      { numRuns }
    )
  })
})

test('lanes that are alike: the best of all orders, whichever lane comes first', () => {
  const sizes = [
    { ...SIZE, maxima: true, tools: true, midway: true },
    { ...SIZE, lanes: 3, tasks: 2, maxima: true, tools: true }
  ]
  fc.assert(
    fc.property(fc.oneof(...sizes.map((size) => anyProblem(size))), (given) => {
      const [first] = given.chains
      const chains = given.chains.map((chain, index) => (index < 2 && first ? { ...first, lane: chain.lane } : chain))
      const problem = { ...given, chains }
      const best = bruteForced(stated(problem))
      if (best === null) {
        expect(outcome(problem).kind).not.toBe('kept')
        return
      }
      expect(outcome(problem)).toEqual({ kind: 'kept', ...best })
      const finishes = chains.flatMap(({ lane }) => {
        const planned = planFor(problem, { ...EXACT, firstOn: lane })
        return planned.kind === 'plan' ? [planned.plan.finish] : []
      })
      expect(Math.min(...finishes)).toBe(best.finish)
    }),
    { numRuns: 150 }
  )
})

describe('against a general solver', () => {
  test.each<readonly [string, ProblemSize, number]>([
    ['two lanes', { ...SIZE, tasks: 5, maxima: true, tools: true }, 120],
    [
      'two lanes midway, with the whole machine',
      { ...SIZE, tasks: 4, machineTasks: 1, maxima: true, midway: true },
      100
    ],
    ['three lanes', { ...SIZE, lanes: 3, tasks: 3, maxima: true, tools: true }, 60],
    [
      'three lanes midway, with the whole machine',
      { ...SIZE, lanes: 3, tasks: 3, machineTasks: 1, maxima: true, midway: true },
      60
    ]
  ])(
    '%s: the same finish, and late by no more than must be',
    (_, size, numRuns) => {
      fc.assert(
        fc.property(anyProblem(size), (problem) => {
          const statement = stated(problem)
          const ours = outcome(problem)
          if (ours.kind === 'kept') {
            expect(solvedByHighs(highs, statement)).toBe(ours.finish)
          } else if (ours.kind === 'missed') {
            // Ours relaxes only the stretch that cannot keep its limits; the model relaxes every one alike.
            const relaxed = solvedByHighs(highs, statement, ours.lateMs) ?? Number.POSITIVE_INFINITY
            if (size.machineTasks === 0) expect(relaxed).toBe(ours.finish)
            else expect(relaxed).toBeLessThanOrEqual(ours.finish)
            expect(solvedByHighs(highs, statement, ours.lateMs - 1000)).toBe(null)
          } else {
            expect(solvedByHighs(highs, statement, 24 * 3600_000)).toBe(null)
          }
        }),
        { numRuns }
      )
    },
    60_000
  )
})
