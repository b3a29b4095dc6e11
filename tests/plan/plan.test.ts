import fc from 'fast-check'
import { describe, expect, it, test } from 'vitest'
import { naiveOrders } from '../../src/core/plan/naive-orders.ts'
import { DEFAULTS, planFor, type Plan, type PlanOptions } from '../../src/core/plan/plan.ts'
import type { Chain, Problem, Task } from '../../src/core/plan/problem.ts'
import { inventedProblem } from '../bench/plan-problems.ts'
import { anyProblem } from './any-problem.ts'
import { stated } from './problem-statement.ts'
import { wrongInPlan } from './valid-plan.ts'

const task = (handsMs: number, minMs = 0, rest: Partial<Task> = {}): Task => ({
  step: 'step',
  round: 1,
  handsMs,
  minMs,
  maxMs: null,
  takes: [],
  frees: [],
  block: 0,
  ...rest
})
const chain = (lane: string, tasks: readonly Task[], rest: Partial<Chain> = {}): Chain => ({
  lane,
  tasks: tasks.map((one, index) => ({ ...one, step: `${lane}${index}` })),
  readyMs: 0,
  latestMs: null,
  holds: [],
  ...rest
})
const problem = (chains: readonly Chain[], rest: Partial<Problem> = {}): Problem => ({
  chains,
  machine: chain('machine', []),
  tools: {},
  changeMs: 0,
  hands: [null],
  ...rest
})
const EXACT: PlanOptions = { budget: 1_000_000, slackMs: 0, firstOn: null }

function plan(given: Problem, options: PlanOptions = EXACT): Plan {
  const planned = planFor(given, options)
  if (planned.kind === 'fault') throw new Error(JSON.stringify(planned.fault))
  return planned.plan
}

describe('published values', () => {
  /** Carlier, The one-machine sequencing problem, EJOR 11 (1982): seven jobs, optimum 50, longest tail first 53; from memory. */
  it('seven jobs with heads and tails', () => {
    const r = [10, 13, 11, 20, 30, 0, 30]
    const p = [5, 6, 7, 4, 3, 6, 2]
    const q = [7, 26, 24, 21, 8, 17, 0]
    const jobs = problem(
      r.map((ready, index) => chain(`job${index}`, [task(p[index] ?? 0, q[index])], { readyMs: ready }))
    )
    expect(plan(jobs)).toMatchObject({ finish: 50, lowerBound: 50 })
    expect(naiveOrders(jobs).longestTail.finish).toBe(53)
  })

  /** Longest delivery time first is best for one step and one trailing wait a side; from memory. */
  test('one step and one wait a side: the longest wait first', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: 1, max: 20 }), fc.nat(100)), { minLength: 1, maxLength: 6 }),
        (jobs) => {
          const given = problem(jobs.map(([p, q], index) => chain(`side${index}`, [task(p, q)])))
          const byRule = [...jobs].sort((a, b) => b[1] - a[1])
          let [now, finish] = [0, 0]
          for (const [p, q] of byRule) {
            now += p
            finish = Math.max(finish, now + q)
          }
          expect(plan(given).finish).toBe(finish)
        }
      )
    )
  })

  /** n identical sides of two unit steps with a wait of L between them, n <= L + 1: n + L + 1; from memory. */
  it.each([
    [2, 1],
    [2, 5],
    [3, 5],
    [4, 3],
    [6, 9]
  ])('%i identical sides with a wait of %i', (sides, wait) => {
    const given = problem(Array.from({ length: sides }, (_, index) => chain(`s${index}`, [task(1, wait), task(1)])))
    expect(plan(given).finish).toBe(sides + wait + 1)
  })
})

describe('limits', () => {
  it('keeps a later step from starting so early that it would miss the next limit', () => {
    // Taken as early as it can, the left side's first step would make its second one late: the right side takes 50.
    const given = problem([chain('left', [task(5, 10, { maxMs: 20 }), task(5)]), chain('right', [task(50)])])
    expect(plan(given)).toMatchObject({ finish: 70, limits: { kind: 'kept' } })
  })

  it('keeps a minute of slack where there is room, and half of the room where there is not', () => {
    const wide = problem([
      chain('left', [task(1000, 60_000, { maxMs: 300_000 }), task(1000)]),
      chain('right', [task(230_000)])
    ])
    const order = plan(wide, { ...EXACT, slackMs: 60_000 }).order
    const gap = (lane: string) =>
      (order.filter((one) => one.lane === lane)[1]?.start ?? 0) - (order.find((one) => one.lane === lane)?.end ?? 0)
    expect(gap('left')).toBeLessThanOrEqual(240_000)
    expect(plan(wide, { ...EXACT, slackMs: 60_000 }).limits).toEqual({ kind: 'kept', withSlack: true })
  })

  it('says so when only the bare limit can be kept', () => {
    const tight = problem([chain('left', [task(1000)], { latestMs: 0 })], { hands: ['left'] })
    expect(plan(tight, { ...EXACT, slackMs: 60_000 }).limits).toEqual({ kind: 'kept', withSlack: true })
    const gone = problem([chain('left', [task(1000)], { latestMs: -5000 })], { hands: ['left'] })
    expect(plan(gone, { ...EXACT, slackMs: 60_000 }).limits).toEqual({
      kind: 'missed',
      lateMs: 5000,
      leastLateMs: 5000
    })
  })
})

describe('hands on the way', () => {
  const two = problem([chain('left', [task(10, 50), task(10)]), chain('right', [task(10, 65), task(10)])], {
    hands: ['left'],
    changeMs: 0
  })

  it('finish what they are at, though another lane would end earlier', () => {
    expect(plan(two).order[0]?.lane).toBe('right')
    const stays = plan(two, { ...EXACT, firstOn: 'left' })
    expect(stays.order[0]?.lane).toBe('left')
    expect(stays.finish - plan(two).finish).toBe(5)
  })

  it('are turned round for a limit, whatever the gain', () => {
    const limited = problem([chain('left', [task(60)]), chain('right', [task(10)], { latestMs: 30 })], {
      hands: ['left']
    })
    expect(plan(limited, { ...EXACT, firstOn: 'left' }).order[0]?.lane).toBe('right')
  })

  it('begin on either of two lanes that are alike', () => {
    const alike = problem([chain('left', [task(10, 50), task(10)]), chain('right', [task(10, 50), task(10)])])
    for (const lane of ['left', 'right'])
      expect(plan(alike, { ...EXACT, firstOn: lane })).toMatchObject({ finish: 80, order: [{ lane }, {}, {}, {}] })
  })

  it('cannot be held to a lane with nothing left to do', () => {
    expect(plan(two, { ...EXACT, firstOn: 'bench' }).order[0]?.lane).toBe('right')
  })
})

/** How late a plan is, and how late any must be. */
function lateness({ limits }: Plan) {
  return limits.kind === 'kept' ? { ms: 0, leastMs: 0 } : { ms: limits.lateMs, leastMs: limits.leastLateMs }
}

const SIZE = { lanes: 3, tasks: 4, machineTasks: 2, tools: true, maxima: true, midway: true }

describe('any plan', () => {
  test('for several pairs of hands is valid, and its bound is one', () => {
    fc.assert(
      fc.property(anyProblem(SIZE), fc.integer({ min: 2, max: 3 }), (given, hands) => {
        const crew = { ...given, hands: Array.from({ length: hands }, () => given.hands[0] ?? null) }
        const planned = planFor(crew)
        if (planned.kind === 'fault') {
          expect(planned.fault.kind).toBe('tools-never-free')
          return
        }
        expect(wrongInPlan(stated(given), planned.plan, hands)).toEqual([])
        expect(planned.plan.lowerBound).toBeLessThanOrEqual(planned.plan.finish)
      }),
      { numRuns: 300 }
    )
  })

  test('within a small budget is valid, and its bounds hold', () => {
    fc.assert(
      fc.property(anyProblem(SIZE), fc.integer({ min: 1, max: 30 }), (given, budget) => {
        const hasty = planFor(given, { ...EXACT, budget })
        const exact = planFor(given, EXACT)
        expect(hasty.kind).toBe(exact.kind)
        if (hasty.kind === 'fault' || exact.kind === 'fault') return
        expect(wrongInPlan(stated(given), hasty.plan)).toEqual([])
        const [late, least] = [lateness(hasty.plan), lateness(exact.plan)]
        expect(late.ms).toBeGreaterThanOrEqual(least.ms)
        expect(late.leastMs).toBeLessThanOrEqual(least.ms)
        if (late.ms > 0) return
        expect(hasty.plan.lowerBound).toBeLessThanOrEqual(exact.plan.finish)
        expect(hasty.plan.finish).toBeGreaterThanOrEqual(exact.plan.finish)
      }),
      { numRuns: 300 }
    )
  })

  test.each([
    [3, 60],
    [4, 60]
  ])('of %i sides and %i steps is found within any budget', (sides, steps) => {
    for (let seed = 1; seed <= 12; seed += 1) {
      const given = inventedProblem(seed, sides, steps)
      const { lowerBound, finish, ...hasty } = plan(given, { ...DEFAULTS, budget: 40 })
      expect(wrongInPlan(stated(given), { ...hasty, lowerBound, finish })).toEqual([])
      expect(lowerBound).toBeLessThanOrEqual(finish)
    }
  })

  test('is never later than a naive order that keeps all limits', () => {
    fc.assert(
      fc.property(anyProblem(SIZE), (given) => {
        const planned = planFor(given, EXACT)
        if (planned.kind === 'fault' || planned.plan.limits.kind === 'missed') return
        for (const naive of Object.values(naiveOrders(given))) {
          if (naive.finish !== null && naive.missed === 0) expect(planned.plan.finish).toBeLessThanOrEqual(naive.finish)
        }
      }),
      { numRuns: 300 }
    )
  })
})

describe('input that cannot be planned', () => {
  it.each<readonly [string, Problem, object]>([
    [
      'a maximum under a minimum',
      problem([chain('left', [task(1, 10, { maxMs: 5 })])]),
      { kind: 'maximum-under-minimum', step: 'left0' }
    ],
    ['a time that is none', problem([chain('left', [task(Number.NaN)])]), { kind: 'bad-time', step: 'left0' }],
    ['a negative time', problem([chain('left', [task(-1)])]), { kind: 'bad-time', step: 'left0' }],
    [
      'a tool nobody has',
      problem([chain('left', [task(1, 0, { takes: ['pail'] })])]),
      { kind: 'unknown-tool', tool: 'pail' }
    ],
    [
      'tools that stand in the way',
      problem(
        [
          chain('left', [task(1, 0, { takes: ['pail'] }), task(1, 0, { takes: ['brush'] })]),
          chain('right', [task(1)], { holds: ['brush'] })
        ],
        { tools: { pail: 1, brush: 1 } }
      ),
      { kind: 'tools-never-free', lane: 'left' }
    ],
    [
      'a whole-machine step whose tool a side keeps',
      problem([chain('left', [task(1, 0, { takes: ['pail'] })])], {
        tools: { pail: 1 },
        machine: chain('machine', [task(1, 0, { takes: ['pail'] })])
      }),
      { kind: 'tools-never-free', lane: 'machine', step: 'machine0' }
    ],
    [
      'a hundred lanes',
      problem(Array.from({ length: 100 }, (_, index) => chain(`lane${index}`, [task(1)]))),
      { kind: 'too-many-lanes', lanes: 100 }
    ]
  ])('%s is named', (_, given, fault) => {
    expect(planFor(given)).toMatchObject({ kind: 'fault', fault })
  })

  it('takes steps of no length, and lanes with nothing to do', () => {
    expect(plan(problem([chain('left', [task(0), task(0)]), chain('right', [])])).finish).toBe(0)
    expect(
      plan(problem([chain('left', []), chain('right', [])], { machine: chain('machine', [task(5, 3)]) })).finish
    ).toBe(8)
    expect(planFor(problem([]), DEFAULTS)).toMatchObject({ kind: 'plan', plan: { finish: 0, order: [] } })
  })
})
