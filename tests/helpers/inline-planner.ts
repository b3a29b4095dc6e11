/** A planner that answers at once, for pages under test. */
import { answersPlanQuestions } from '../../src/devices/planner-question.ts'
import { workerPlanner } from '../../src/devices/planner-worker.ts'
import type { Planner } from '../../src/ports/planner.ts'

export function inlinePlanner(): Planner {
  const answer = answersPlanQuestions()
  return workerPlanner(
    () => {
      throw new Error('There are no workers here.')
    },
    (question) => Promise.resolve(answer(question))
  )
}
