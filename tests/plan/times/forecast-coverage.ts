/**
 * Shops whose true times are known, unlike what the learner believes beforehand: how often the finish came no later than
 * was foretold from so many earlier runs, and by how much the P50 was off.
 */
import { planFor } from '../../../src/core/plan/plan.ts'
import { finishTimes } from '../../../src/core/plan/times/finish-times.ts'
import { learnedAssumptions } from '../../../src/core/plan/times/learned-assumptions.ts'
import { learnedTimes } from '../../../src/core/plan/times/learned-times.ts'
import { paceOf } from '../../../src/core/plan/times/pace.ts'
import type { TimeSample } from '../../../src/core/plan/times/time-sample.ts'
import { carrierOf } from './carried-out-plan.ts'
import { normal, seeded } from '../../helpers/seeded.ts'
import { closingProblem } from './closing-problem.ts'
import { A_STEP } from './a-step.ts'

export interface Coverage {
  /** Shares of the shops. */
  readonly p50: number
  readonly p80: number
  readonly p95: number
  /** Mean of |finish / P50 - 1|. */
  readonly off: number
}

/** Standard deviations of logarithms; interruptions make one time in so many last five times as long. */
const TRUTH = { shop: 0.2, operator: 0.2, machine: 0.05, step: 0.3, noise: 0.4, day: 0.15, interrupted: 40 }

export function forecastCoverage(runs: number, shops: number, seed: number): Coverage {
  const before = { p50: 0, p80: 0, p95: 0 }
  let off = 0
  for (let shop = 0; shop < shops; shop += 1) {
    const { finish, times } = oneForecast(runs, seed * 10_000 + shop)
    for (const share of ['p50', 'p80', 'p95'] as const) before[share] += finish <= times[share] ? 1 / shops : 0
    off += Math.abs(finish / times.p50 - 1) / shops
  }
  return { ...before, off }
}

function oneForecast(runs: number, seed: number) {
  const chance = seeded(seed)
  const problem = closingProblem(20, seed)
  const planned = planFor(problem, { budget: 2000, slackMs: 0, firstOn: null })
  if (planned.kind === 'fault') throw new Error(planned.fault.kind)
  const { order } = planned.plan
  const stated = new Map(order.map(({ step, start, end }) => [step, (end - start) / 1000]))
  const steps = [...stated].map(([id, handsSeconds]) => ({ id, handsSeconds }))
  const people = ['Ada', 'Ben', 'Cleo'].map((operator) => ({ operator, effect: normal(chance) * TRUTH.operator }))
  const common = normal(chance) * TRUTH.shop + normal(chance) * TRUTH.machine
  const stepEffects = new Map(steps.map(({ id }) => [id, normal(chance) * TRUTH.step]))

  const aRun = (effect: number) => {
    const level = common + effect + normal(chance) * TRUTH.day
    return order.map(({ step }) => {
      const interrupted = chance() < 1 / TRUTH.interrupted ? 5 : 1
      const log = level + (stepEffects.get(step) ?? 0) + normal(chance) * TRUTH.noise
      return { step, seconds: (stated.get(step) ?? 0) * Math.exp(log) * interrupted }
    })
  }
  const samples: TimeSample[] = []
  for (let run = 0; run < runs; run += 1) {
    const who = people[run % people.length]
    for (const { step, seconds } of aRun(who?.effect ?? 0))
      samples.push({ step, machine: 'one', operator: who?.operator ?? '', run: String(run), seconds, at: run })
  }
  const learned = learnedTimes(samples, steps, { machine: 'one', operator: 'Ada' })
  const pace = paceOf(learned, [])
  const { handsMs } = learnedAssumptions(learned, pace, problem.changeMs)
  const expected = order.map((task) => {
    const handsSeconds = stated.get(task.step) ?? 0
    return { ...task, start: 0, end: handsMs(task.lane, { ...A_STEP, id: task.step, handsSeconds }) }
  })
  const today = aRun(people[0]?.effect ?? 0).map(({ seconds }) => seconds * 1000)
  return { finish: carrierOf(problem, order)(today), times: finishTimes(problem, expected, learned, pace) }
}
