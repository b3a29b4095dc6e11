import { expect, test } from 'vitest'
import { aCourse, aProcedure, EVERYTHING } from '../../../tests/helpers/a-procedure.ts'
import { carriedRun, DONE } from '../../../tests/helpers/a-run.ts'
import { layOut } from '../procedure/course.ts'
import { emptyRun } from '../run/reduce.ts'
import { planFor } from './plan.ts'
import { AS_STATED, problemOf } from './problem-of-run.ts'

test('every step of a run that has not begun is planned, each repeat at its least number of rounds', () => {
  const course = layOut(aProcedure(EVERYTHING))
  const planned = planFor(problemOf(course, emptyRun(course, 'run'), 0, AS_STATED))
  if (planned.kind === 'fault') throw new Error(JSON.stringify(planned.fault))
  for (const lane of course.lanes) {
    const steps = planned.plan.order.filter((task) => task.lane === lane.id).map(({ step }) => step)
    expect(new Set(steps)).toEqual(new Set(lane.steps.map(({ step }) => step.id)))
  }
})

test('a wait that runs holds its lane until it is over', () => {
  const course = aCourse(`  - stage: A
    steps:
      - {step: soak, say: Soak it., hands: 10 s, wait: {for: soak, at least: 1 min, at most: 3 min, source: Label}}
      - {step: rinse, say: Rinse it., hands: 10 s}`)
  const run = carriedRun(course).do(DONE).pass(20)
  const [left] = problemOf(course, run.run(), run.at(), AS_STATED).chains
  expect(left).toMatchObject({ lane: 'left', readyMs: 40_000, latestMs: 160_000, tasks: [{ step: 'rinse' }] })
})

test('a wait runs on while its lane is put right, and no later plan forgets it', () => {
  const course = aCourse(`  - stage: A
    steps:
      - {step: soak, say: Soak it., hands: 10 s, wait: {for: soak, at least: 10 min, source: Label}}
      - {step: rinse, say: Rinse it., hands: 10 s}`)
  const run = carriedRun(course).do(DONE).pass(20).do({ type: 'report-problem', lane: 'left', text: 'The hose drips.' })
  const problem = problemOf(course, run.run(), run.at(), AS_STATED)
  expect(problem.chains[0]).toMatchObject({
    readyMs: 0,
    tasks: [
      { step: 'rinse', round: 0 },
      { step: 'rinse', round: 1 }
    ]
  })
  const planned = planFor({ ...problem, chains: problem.chains.slice(0, 1), hands: ['left'] })
  if (planned.kind === 'fault') throw new Error(JSON.stringify(planned.fault))
  // 10 min less the 20 s gone by, then the rinse.
  expect(planned.plan.finish).toBe(580_000 + 10_000)
})
