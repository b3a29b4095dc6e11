/** The simulated crews of the evaluation, held to what is known of them without chance. */
import { expect, test } from 'vitest'
import { naiveOrders } from '../../src/core/plan/naive-orders.ts'
import { DEFAULTS, planFor } from '../../src/core/plan/plan.ts'
import { AS_STATED, wholeProblem } from '../../src/core/plan/problem-of-run.ts'
import { layOut } from '../../src/core/procedure/course.ts'
import { aProcedure, withHead } from '../helpers/a-procedure.ts'
import { SHIPPED } from '../procedures/shipped-files.ts'
import { carryOut, type Guide, type Habit, type Times } from '../../src/core/plan/crew.ts'
import { alternate, oneSideThenOther, stayUntilWait } from './habits.ts'

const STATED: Times = { handsMs: (_, { step }) => step.handsSeconds * 1000, assumed: AS_STATED }
/** Of 5 s each. */
const FEW_CHANGES_MIN = 0.25
/** Where the crew's habit and the naive order serve bench and sides in the same order. */
const SAME_ORDER = SHIPPED.filter(({ name }) => !/four-bowl|slicer/.test(name))

const planned = (replans: boolean): Guide => ({ kind: 'plan', options: DEFAULTS, replans })

test.each(SHIPPED)('$name takes a planned crew as long as the plan says, when steps take what is stated', (file) => {
  const course = layOut(file.procedure)
  const plan = planFor(wholeProblem(course))
  const finish = plan.kind === 'plan' ? plan.plan.finish / 60_000 : 0
  for (const replans of [false, true]) {
    const carriedOut = carryOut(course, planned(replans), STATED)
    expect(carriedOut).toMatchObject({ missed: 0, isGivenUp: false })
    // The first way to a lane costs the plan nothing, and a crew that is called there a change.
    expect(Math.abs(carriedOut.minutes - finish)).toBeLessThanOrEqual(FEW_CHANGES_MIN)
  }
})

test.each(SAME_ORDER)('$name takes crews with habits as long as the naive orders say', ({ procedure }) => {
  const course = layOut(procedure)
  const naive = naiveOrders(wholeProblem(course))
  const minutes = (habit: Habit) => carryOut(course, { kind: 'habit', habit }, STATED).minutes
  expect(minutes(oneSideThenOther)).toBeCloseTo((naive.oneSideThenOther.finish ?? 0) / 60_000, 5)
  // Which lane comes next where several could is told by neither: within one part in a hundred.
  expect(minutes(alternate) / ((naive.alternate.finish ?? 0) / 60_000)).toBeCloseTo(1, 1)
  expect(minutes(stayUntilWait) / ((naive.stayUntilWait.finish ?? 0) / 60_000)).toBeCloseTo(1, 1)
})

test('a limit that is missed is seen, put right and counted', () => {
  const course = layOut(
    aProcedure(
      withHead(`  - stage: Soak
    steps:
      - {step: soak, on: left, say: Soak it., hands: 10 s, wait: {for: soak, at least: 1 min, at most: 2 min, source: Label}}
      - {step: rinse, on: left, say: Rinse it., hands: 10 s}
      - {step: scrub, on: right, say: Scrub it., hands: 4 min}`)
    )
  )
  const stays = carryOut(course, { kind: 'habit', habit: stayUntilWait }, STATED)
  expect(stays).toMatchObject({ missed: 1, isGivenUp: false })
  expect(carryOut(course, planned(true), STATED)).toMatchObject({ missed: 0, isGivenUp: false })
})
