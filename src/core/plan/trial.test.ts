import { expect, test } from 'vitest'
import { aProcedure, withHead } from '../../../tests/helpers/a-procedure.ts'
import { shipped } from '../../../tests/procedures/shipped-files.ts'
import { wholeProblem } from './problem-of-run.ts'
import { planFor } from './plan.ts'
import { layOut } from '../procedure/course.ts'
import { tryOut } from './trial.ts'

test('a day takes what the plan says, every step is done, and other days spread around it', () => {
  const procedure = shipped('slicer-four-hours')
  const planned = planFor(wholeProblem(layOut(procedure)))
  const { minutes, notes, missed, isGivenUp, days } = tryOut(procedure, 7)
  expect({ missed, isGivenUp }).toEqual({ missed: 0, isGivenUp: false })
  expect(Math.abs(minutes - (planned.kind === 'plan' ? planned.plan.finish / 60_000 : 0))).toBeLessThan(0.5)
  const done = new Set(notes.filter(({ kind }) => kind === 'hands').map(({ step }) => step))
  expect(done.size).toBe(procedure.stages.flatMap(({ steps }) => steps).length)
  expect(days.p50 / minutes).toBeGreaterThan(0.8)
  expect(days.p80).toBeGreaterThan(days.p50)
  expect(tryOut(procedure, 7)).toEqual(tryOut(procedure, 7))
})

test('a limit that some days miss is counted', () => {
  const procedure = aProcedure(
    withHead(`  - stage: Soak
    steps:
      - {step: soak, on: left, say: Soak it., hands: 10 s, wait: {for: soak, at least: 1 min, at most: 5 min, source: Label}}
      - {step: rinse, on: left, say: Rinse it., hands: 10 s}
      - {step: scrub, on: right, say: Scrub it., hands: 4 min}
      - {step: end, on: whole machine, say: Look., hands: 5 s}`)
  )
  const { days } = tryOut(procedure, 1)
  expect(days.bad).toBeLessThan(days.count)
  expect(tryOut(shipped('drink-lines'), 1).days.bad).toBe(0)
})
