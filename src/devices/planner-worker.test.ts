import { expect, test } from 'vitest'
import { aCourse } from '../../tests/helpers/a-procedure.ts'
import { wholeProblem } from '../core/plan/problem-of-run.ts'
import { answersPlanQuestions } from './planner-question.ts'
import { workerPlanner, type PlannerWorker } from './planner-worker.ts'
import type { NumberedAnswer, NumberedQuestion } from './planner.worker.ts'

class FakeWorker extends EventTarget {
  readonly asked: NumberedQuestion[] = []
  terminated = false
  postMessage(question: NumberedQuestion) {
    if (this.terminated) throw new Error('This worker is terminated.')
    // As between threads: nothing is shared.
    this.asked.push(structuredClone(question))
  }
  terminate() {
    this.terminated = true
  }
  answer(index = this.asked.length - 1) {
    const { number, question } = this.asked[index] ?? expect.unreachable('nothing was asked')
    const data: NumberedAnswer = structuredClone({ number, answer: answersPlanQuestions()(question) })
    this.dispatchEvent(Object.assign(new Event('message'), { data }))
  }
}

const PROBLEM = wholeProblem(
  aCourse(
    '  - {stage: A, steps: [{step: soak, say: Soak it., hands: 1 min, wait: {for: soak, at least: 5 min, source: Label}}]}'
  )
)
/** 1 min left, 5 s to go over, 1 min right, then its 5 min. */
const FINISH = 425_000

function world({ forbidden = false } = {}) {
  const worker = new FakeWorker()
  let inPage = 0
  const planner = workerPlanner(
    () => {
      if (forbidden) throw new Error('Workers are forbidden.')
      return worker as unknown as PlannerWorker
    },
    async (question) => {
      inPage += 1
      return answersPlanQuestions()(question)
    }
  )
  return { worker, planner, inPage: () => inPage }
}

const finishOf = async (answer: ReturnType<ReturnType<typeof world>['planner']['forecast']>) => {
  const given = await answer
  return given?.planned.kind === 'plan' ? given.planned.plan.finish : null
}

test('asks the worker and gives its answer', async () => {
  const { worker, planner, inPage } = world()
  const answer = planner.forecast(PROBLEM, null, null)
  worker.answer()
  expect(await finishOf(answer)).toBe(FINISH)
  expect(inPage()).toBe(0)
})

test('while one question is worked on, only the newest of those that come is kept', async () => {
  const { worker, planner } = world()
  const answers = [1, 2, 3].map(() => planner.forecast(PROBLEM, null, null))
  const whole = planner.preview(PROBLEM, null)
  expect(worker.asked).toHaveLength(1)
  worker.answer(0)
  worker.answer(1)
  worker.answer(2)
  expect(await Promise.all(answers.map(finishOf))).toEqual([FINISH, null, FINISH])
  // The last wait of one side runs while the hands are on the other.
  expect((await whole)?.naive.oneSideThenOther.finish).toBe(FINISH)
  expect(worker.asked.map(({ question }) => question.kind)).toEqual(['forecast', 'forecast', 'preview'])
})

test('an answer that comes twice is heeded once', async () => {
  const { worker, planner } = world()
  const first = planner.forecast(PROBLEM, null, null)
  worker.answer(0)
  const second = planner.forecast(PROBLEM, null, null)
  worker.answer(0)
  worker.answer(1)
  expect(await finishOf(first)).toBe(FINISH)
  expect(await finishOf(second)).toBe(FINISH)
})

test('a worker that breaks is done without, the question in work included', async () => {
  const { worker, planner, inPage } = world()
  const answer = planner.forecast(PROBLEM, null, null)
  worker.dispatchEvent(new Event('error'))
  expect(await finishOf(answer)).toBe(FINISH)
  expect(worker.terminated).toBe(true)
  expect(await finishOf(planner.forecast(PROBLEM, null, null))).toBe(FINISH)
  expect(inPage()).toBe(2)
})

test('works where workers are forbidden', async () => {
  expect(await finishOf(world({ forbidden: true }).planner.forecast(PROBLEM, null, null))).toBe(FINISH)
})

test('closed, it answers everything with nothing', async () => {
  const { worker, planner } = world()
  const answers = [planner.forecast(PROBLEM, null, null), planner.forecast(PROBLEM, null, null)]
  planner.close()
  expect(await Promise.all(answers)).toEqual([null, null])
  expect(await planner.forecast(PROBLEM, null, null)).toBeNull()
  expect(worker.terminated).toBe(true)
})
