/** What learned times and the finish cost, and how far the finish is from simulation. */
import { planFor } from '../../src/core/plan/plan.ts'
import { finishTimes, type FinishTimes } from '../../src/core/plan/times/finish-times.ts'
import { NO_INTERRUPTIONS } from '../../src/core/plan/times/interruptions.ts'
import { learnedTimes } from '../../src/core/plan/times/learned-times.ts'
import type { TimeSample } from '../../src/core/plan/times/time-sample.ts'
import { timesInRun } from '../../src/core/plan/times/times-in-run.ts'
import { layOut } from '../../src/core/procedure/course.ts'
import { lognormal, seeded } from '../helpers/seeded.ts'
import { closingProblem } from '../plan/times/closing-problem.ts'
import { simulatedFinish } from '../plan/times/simulated-finish.ts'
import { timedRun } from '../plan/times/timed-run.ts'
import { shipped } from '../procedures/shipped-files.ts'
import { median, percentile, type Figure } from './report.ts'

const ROUNDS = 200
const WHO = { machine: 'one', operator: 'Ada' }

export async function benchTimes({ long }: { readonly long: boolean }): Promise<readonly Figure[]> {
  return [...costOfFinish(), ...costOfLearning(), ...offSimulation(long ? 400_000 : 100_000)]
}

function planOf(seed: number) {
  const problem = closingProblem(60, seed)
  const planned = planFor(problem)
  if (planned.kind === 'fault') throw new Error(planned.fault.kind)
  const { order } = planned.plan
  return { problem, order, steps: [...new Map(order.map((task) => [task.step, task])).values()].map(stated) }
}

function stated({ step, start, end }: { readonly step: string; readonly start: number; readonly end: number }) {
  return { id: step, handsSeconds: (end - start) / 1000 }
}

function timed(rounds: number, work: () => unknown): readonly number[] {
  for (let warm = 0; warm < rounds / 4; warm += 1) work()
  return Array.from({ length: rounds }, () => {
    const started = performance.now()
    work()
    return performance.now() - started
  })
}

function costOfFinish(): readonly Figure[] {
  const { problem, order, steps } = planOf(1)
  const learned = learnedTimes([], steps, WHO)
  const costs = timed(ROUNDS, () => finishTimes(problem, order, learned, learned.pace))
  const how = `2 x 60 steps, ${ROUNDS} times`
  return [
    { name: 'P50, P80 and P95 of the finish', value: median(costs), unit: 'ms', atMost: 2, how: `${how}, median` },
    { name: 'the same, p95', value: percentile(costs, 95), unit: 'ms', atMost: null, how }
  ]
}

function costOfLearning(): readonly Figure[] {
  const { order, steps } = planOf(1)
  const chance = seeded(1)
  const samples = Array.from({ length: 60 }, (_, run) => {
    const pace = lognormal(chance, 1, 0.15)
    return order.map((task): TimeSample => ({
      ...WHO,
      step: task.step,
      run: String(run),
      seconds: stated(task).handsSeconds * pace * lognormal(chance, 1, 0.4),
      at: run
    }))
  }).flat()
  const learning = timed(8, () => learnedTimes(samples, steps, WHO))
  const { course, events } = timedRun(layOut(shipped('twin-freezer-closing')), () => 0, 5000)
  const reading = timed(8, () => timesInRun(course, events, 5000))
  return [
    {
      name: 'learning from 60 runs',
      value: median(learning),
      unit: 'ms',
      atMost: null,
      how: `${samples.length} times`
    },
    {
      name: 'reading the times of a run',
      value: median(reading),
      unit: 'ms',
      atMost: null,
      how: `${events.length} events`
    }
  ]
}

function offSimulation(trials: number): readonly Figure[] {
  const cases = [
    { noise: 0.16, pace: 0.02, what: 'usual spread' },
    { noise: 0.3, pace: 0.1, what: 'nothing known yet' }
  ]
  return cases.map(({ noise, pace, what }) => {
    const offs = [1, 2, 3].map((seed) => {
      const { problem, order, steps } = planOf(seed)
      const time = { meanSeconds: 1, logMedian: 0, logVariance: noise, count: 0 }
      const spread = {
        steps: Object.fromEntries(steps.map(({ id }) => [id, time])),
        interruptions: NO_INTERRUPTIONS
      }
      const ours = finishTimes(problem, order, spread, { logMean: 0, logVariance: pace })
      const theirs = simulatedFinish(problem, order, { tasks: order.map(() => noise), pace }, trials, seed + 100)
      return Math.max(...(['p50', 'p80', 'p95'] as const).map((share) => off(ours, theirs, share)))
    })
    const how = `largest of P50, P80, P95 in 3 plans of 2 x 60, ${trials} trials`
    return { name: `finish off simulation, ${what}`, value: 100 * Math.max(...offs), unit: '%', atMost: 0.5, how }
  })
}

function off(ours: FinishTimes, theirs: FinishTimes, share: keyof FinishTimes): number {
  return Math.abs(ours[share] / theirs[share] - 1)
}
