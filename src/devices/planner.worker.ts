/** Runs as a worker: a search may take longer than a frame. */
import { answersPlanQuestions, type PlanAnswer, type PlanQuestion } from './planner-question.ts'

const answerPlanQuestion = answersPlanQuestions()

addEventListener('message', ({ data: { number, question } }: MessageEvent<NumberedQuestion>) => {
  postMessage({ number, answer: answerPlanQuestion(question) } satisfies NumberedAnswer)
})

export interface NumberedQuestion {
  readonly number: number
  readonly question: PlanQuestion
}

export interface NumberedAnswer {
  readonly number: number
  readonly answer: PlanAnswer
}
