/** Plans of invented problems and in the middle of runs: how long they take, how many are proved best, and how far off the rest may be. */
import highsLoader from 'highs'
import { forecaster } from '../../src/core/plan/forecast.ts'
import { DEFAULTS, planFor, type Planned } from '../../src/core/plan/plan.ts'
import { AS_STATED, problemOf } from '../../src/core/plan/problem-of-run.ts'
import type { Problem } from '../../src/core/plan/problem.ts'
import { layOut } from '../../src/core/procedure/course.ts'
import { FIRST_HANDS, handsOf } from '../../src/core/run/run.ts'
import { carryOut } from '../../src/core/plan/crew.ts'
import { stated } from '../plan/problem-statement.ts'
import { solvedByHighs } from '../plan/solver-model.ts'
import { SHIPPED } from '../procedures/shipped-files.ts'
import { midway } from './midway.ts'
import { inventedProblem } from './plan-problems.ts'
import { median, percentile, type Figure } from './report.ts'

const STEPS = 60
const PROBLEMS = { two: 60, three: 20, four: 20, solver: 12 }
/** Steps a side that the general solver still finishes. */
const SOLVER_STEPS = 6
const CLOSED_WITHIN_MS = 100
const WARM_UP = 100
/** A plan every so many tasks. */
const EVERY = 5

/** Processor time: on a machine that is shared, the clock on the wall tells about the others. */
interface Timed {
  readonly ms: number
  readonly planned: Planned
}

function timed(plan: () => Planned): Timed {
  const started = process.cpuUsage()
  const planned = plan()
  return { ms: sinceMs(started), planned }
}

function sinceMs(started: NodeJS.CpuUsage): number {
  const { user, system } = process.cpuUsage(started)
  return (user + system) / 1000
}

const numbers = (count: number) => Array.from({ length: count }, (_, index) => index + 1)

/** How far over its bound a plan is, %; 0 when it is proved best. */
function gapOf({ planned }: Timed): number {
  if (planned.kind === 'fault') throw new Error(JSON.stringify(planned.fault))
  const { finish, lowerBound } = planned.plan
  return finish === lowerBound ? 0 : (100 * (finish - lowerBound)) / finish
}

export async function benchPlan(): Promise<readonly Figure[]> {
  // So that compiled code is what is timed, on a busy machine too.
  for (const seed of numbers(WARM_UP)) planFor(inventedProblem(1000 + seed, 2, STEPS))
  return [
    ...twoSides(),
    ...midwayOfTwoSides(),
    ...midwayOfRuns(),
    ...manySides(3),
    ...manySides(4),
    ...(await solver())
  ]
}

function twoSides(): readonly Figure[] {
  const plans = numbers(PROBLEMS.two).map((seed) => timed(() => planFor(inventedProblem(seed, 2, STEPS))))
  const how = `${PROBLEMS.two} invented problems with tools and limits`
  return [
    ...times('2x60', plans, { median: 10, p95: 60 }, how),
    { name: '2x60 proved best', value: closed(plans), unit: '%', atMost: null, how }
  ]
}

function midwayOfTwoSides(): readonly Figure[] {
  const plans = numbers(PROBLEMS.two / 3).flatMap((seed) => {
    const problem = inventedProblem(seed, 2, STEPS)
    return again(problem).map((left) => timed(() => planFor(left)))
  })
  return times('re-plan in 2x60', plans, { median: 1, p95: null }, `${plans.length} states on the way through`)
}

function again(problem: Problem): readonly Problem[] {
  const planned = planFor(problem)
  if (planned.kind === 'fault') throw new Error(JSON.stringify(planned.fault))
  const { order } = planned.plan
  return order.flatMap((_, served) => (served % EVERY === 0 ? [midway(problem, order, served)] : []))
}

/** Each run is planned from event to event, as the app's worker does; what another beginning would cost counts too. */
function midwayOfRuns(): readonly Figure[] {
  const plans = SHIPPED.flatMap(({ procedure }) => {
    const course = layOut(procedure)
    const guide = { kind: 'plan', options: DEFAULTS, replans: true } as const
    const { states } = carryOut(course, guide, {
      handsMs: (_, { step }) => step.handsSeconds * 1000,
      assumed: AS_STATED
    })
    const forecast = forecaster()
    return states.map(({ run, at }) => {
      const { focus } = handsOf(run, FIRST_HANDS)
      return timed(() => forecast(problemOf(course, run, at, AS_STATED), focus, null).planned)
    })
  })
  return times(
    're-plan in a shipped run',
    plans,
    { median: 1, p95: null },
    `${plans.length} states of the shipped runs`
  )
}

function manySides(sides: 3 | 4): readonly Figure[] {
  const count = sides === 3 ? PROBLEMS.three : PROBLEMS.four
  const plans = numbers(count).map((seed) => timed(() => planFor(inventedProblem(seed, sides, STEPS))))
  const open = plans.map(gapOf).filter((gap) => gap > 0)
  const inTime = plans.filter((plan) => gapOf(plan) === 0 && plan.ms <= CLOSED_WITHIN_MS)
  const how = `${count} invented problems with tools and limits`
  const name = `${sides}x${STEPS}`
  return [
    ...times(name, plans, { median: null, p95: null }, how),
    { name: `${name} proved best in 100 ms`, value: (100 * inTime.length) / count, unit: '%', atMost: null, how },
    { name: `${name} proved best`, value: closed(plans), unit: '%', atMost: null, how },
    {
      name: `${name} gap of the rest, median`,
      value: open.length === 0 ? 0 : median(open),
      unit: '%',
      atMost: null,
      how
    },
    { name: `${name} gap of the rest, worst`, value: Math.max(0, ...open), unit: '%', atMost: null, how }
  ]
}

async function solver(): Promise<readonly Figure[]> {
  const highs = await highsLoader()
  const ratios = numbers(PROBLEMS.solver).map((seed) => {
    const problem = inventedProblem(seed, 2, SOLVER_STEPS)
    const ours = timed(() => planFor(problem, { ...DEFAULTS, slackMs: 0 }))
    const statement = stated(problem)
    const started = process.cpuUsage()
    const theirs = solvedByHighs(highs, statement)
    const ms = sinceMs(started)
    if (
      ours.planned.kind === 'fault' ||
      (ours.planned.plan.limits.kind === 'kept' && ours.planned.plan.finish !== theirs)
    )
      throw new Error(`problem ${seed}: ${JSON.stringify(ours.planned)}, by HiGHS ${theirs}`)
    return ms / ours.ms
  })
  const how = `${PROBLEMS.solver} invented problems of 2x${SOLVER_STEPS}, the same finish`
  return [{ name: 'HiGHS takes so many times as long', value: median(ratios), unit: '', atMost: null, how }]
}

function times(
  name: string,
  plans: readonly Timed[],
  atMost: { readonly median: number | null; readonly p95: number | null },
  how: string
): readonly Figure[] {
  const ms = plans.map((plan) => plan.ms)
  return [
    { name: `${name} median`, value: median(ms), unit: 'ms', atMost: atMost.median, how },
    { name: `${name} p95`, value: percentile(ms, 95), unit: 'ms', atMost: atMost.p95, how }
  ]
}

function closed(plans: readonly Timed[]): number {
  return (100 * plans.filter((plan) => gapOf(plan) === 0).length) / plans.length
}
