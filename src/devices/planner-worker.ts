/** Plans off the main thread; on it where workers are forbidden or break. */
import type { Planner } from '../ports/planner.ts'
import type { PlanAnswer, PlanQuestion } from './planner-question.ts'
import type { NumberedAnswer, NumberedQuestion } from './planner.worker.ts'

/** The part of a worker that is used here. */
export interface PlannerWorker {
  postMessage(question: NumberedQuestion): void
  addEventListener(type: 'message', listener: (event: { readonly data: NumberedAnswer }) => void): void
  addEventListener(type: 'error', listener: () => void): void
  terminate(): void
}

export function startPlannerWorker(): PlannerWorker {
  return new Worker(new URL('./planner.worker.ts', import.meta.url), { type: 'module' })
}

/** Loaded only where it is needed: the page is small without it. */
export async function planInPage(question: PlanQuestion): Promise<PlanAnswer> {
  answering ??= import('./planner-question.ts').then(({ answersPlanQuestions }) => answersPlanQuestions())
  return (await answering)(question)
}

let answering: Promise<(question: PlanQuestion) => PlanAnswer> | null = null

interface Asked {
  readonly question: PlanQuestion
  readonly tell: (answer: PlanAnswer | null) => void
}

/** Where hands are sent goes before everything else. */
const IN_ORDER: readonly PlanQuestion['kind'][] = ['forecast', 'learn', 'pace', 'preview']

/** One question is worked on at a time; of those that come meanwhile only the newest of each kind is kept. */
export function workerPlanner(
  startWorker: () => PlannerWorker,
  inPage: (question: PlanQuestion) => Promise<PlanAnswer>
): Planner {
  const waiting = new Map<PlanQuestion['kind'], Asked>()
  let inWork: Asked | null = null
  let lastNumber = 0
  let isClosed = false
  let worker = started()

  function started(): PlannerWorker | null {
    try {
      const fresh = startWorker()
      fresh.addEventListener('message', ({ data }) => {
        if (data.number === lastNumber) finish(data.answer)
      })
      fresh.addEventListener('error', () => {
        worker?.terminate()
        worker = null
        if (inWork) void workInPage(inWork)
      })
      return fresh
    } catch {
      // Workers are forbidden here (a content security policy, say).
      return null
    }
  }

  function finish(answer: PlanAnswer | null): void {
    const { tell } = inWork ?? {}
    inWork = null
    tell?.(answer)
    next()
  }

  function next(): void {
    if (inWork || isClosed) return
    const asked = IN_ORDER.map((kind) => waiting.get(kind)).find((one) => one !== undefined)
    if (!asked) return
    waiting.delete(asked.question.kind)
    inWork = asked
    lastNumber += 1
    // oxlint-disable-next-line unicorn/require-post-message-target-origin -- that is for windows, a worker has none
    if (worker) worker.postMessage({ number: lastNumber, question: asked.question })
    else void workInPage(asked)
  }

  async function workInPage(asked: Asked): Promise<void> {
    const answer = await inPage(asked.question).catch(() => null)
    if (inWork === asked) finish(answer)
  }

  function ask(question: PlanQuestion): Promise<PlanAnswer | null> {
    return new Promise((tell) => {
      if (isClosed) return tell(null)
      waiting.get(question.kind)?.tell(null)
      waiting.set(question.kind, { question, tell })
      next()
    })
  }

  return {
    async forecast(problem, inHand, times) {
      const answer = await ask({ kind: 'forecast', problem, inHand, times })
      return answer?.kind === 'forecast' ? answer.forecast : null
    },
    async preview(problem, times) {
      const answer = await ask({ kind: 'preview', problem, times })
      return answer?.kind === 'preview' ? answer.preview : null
    },
    async learn(samples, steps, who) {
      const answer = await ask({ kind: 'learn', samples, steps, who })
      return answer?.kind === 'learn' ? answer.learned : null
    },
    async pace(learned, course, events) {
      const answer = await ask({ kind: 'pace', learned, course, events })
      return answer?.kind === 'pace' ? answer.pace : null
    },
    close() {
      isClosed = true
      worker?.terminate()
      for (const { tell } of [...waiting.values(), ...(inWork ? [inWork] : [])]) tell(null)
      waiting.clear()
      inWork = null
    }
  }
}
