/** Runs as a worker: reading and changing a long procedure takes longer than the time between two keys. */
import { answerDraftQuestion, type DraftAnswer, type DraftQuestion } from './draft-question.ts'

addEventListener('message', ({ data: { number, question } }: MessageEvent<NumberedDraftQuestion>) => {
  postMessage({ number, answer: answerDraftQuestion(question) } satisfies NumberedDraftAnswer)
})

export interface NumberedDraftQuestion {
  readonly number: number
  readonly question: DraftQuestion
}

export interface NumberedDraftAnswer {
  readonly number: number
  readonly answer: DraftAnswer
}
