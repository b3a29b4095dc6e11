/** A bench that works in the page, for pages under test. */
import { workerBench } from '../../src/devices/draft-bench.ts'
import { answerDraftQuestion } from '../../src/devices/draft-question.ts'
import type { DraftBench } from '../../src/ports/workshop.ts'

export function inlineBench(): DraftBench {
  return workerBench(
    () => {
      throw new Error('There are no workers here.')
    },
    async (question) => answerDraftQuestion(question)
  )
}
