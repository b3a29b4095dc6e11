/** The bench for drafts, off the main thread: every browser that can show the page has such workers. */
import type { DraftBench } from '../ports/workshop.ts'
import type { DraftAnswer, DraftQuestion } from './draft-question.ts'
import type { NumberedDraftAnswer, NumberedDraftQuestion } from './draft-bench.worker.ts'

/** The part of a worker that is used here. */
export interface BenchWorker {
  postMessage(question: NumberedDraftQuestion): void
  addEventListener(type: 'message', listener: (event: { readonly data: NumberedDraftAnswer }) => void): void
  addEventListener(type: 'error', listener: () => void): void
  terminate(): void
}

export function startBenchWorker(): BenchWorker {
  return new Worker(new URL('./draft-bench.worker.ts', import.meta.url), { type: 'module' })
}

interface Asked {
  readonly question: DraftQuestion
  readonly tell: (answer: DraftAnswer | null) => void
}

/** `inPage` answers where there is no worker; null where nothing can. */
export function workerBench(
  start: () => BenchWorker,
  inPage: ((question: DraftQuestion) => Promise<DraftAnswer>) | null = null
): DraftBench {
  const asked = new Map<number, Asked>()
  let last = 0
  let worker = started()

  function started(): BenchWorker | null {
    try {
      const fresh = start()
      fresh.addEventListener('message', ({ data }) => finish(data.number, data.answer))
      fresh.addEventListener('error', () => {
        worker?.terminate()
        worker = null
        for (const [number, { question }] of asked) void here(number, question)
      })
      return fresh
    } catch {
      return null
    }
  }

  function finish(number: number, answer: DraftAnswer | null): void {
    const one = asked.get(number)
    asked.delete(number)
    one?.tell(answer)
  }

  async function here(number: number, question: DraftQuestion): Promise<void> {
    finish(number, inPage && (await inPage(question).catch(() => null)))
  }

  function ask(question: DraftQuestion): Promise<DraftAnswer | null> {
    return new Promise((tell) => {
      last += 1
      asked.set(last, { question, tell })
      // oxlint-disable-next-line unicorn/require-post-message-target-origin -- that is for windows, a worker has none
      if (worker) worker.postMessage({ number: last, question })
      else void here(last, question)
    })
  }

  return {
    async read(text, shop) {
      const answer = await ask({ kind: 'read', text, shop })
      return answer?.kind === 'read' ? answer.read : null
    },
    async edit(text, edits) {
      const answer = await ask({ kind: 'edit', text, edits })
      return answer?.kind === 'edit' ? answer.edited : null
    },
    async trial(procedure, seed) {
      const answer = await ask({ kind: 'trial', procedure, seed })
      return answer?.kind === 'trial' ? answer.trial : null
    },
    close() {
      worker?.terminate()
      worker = null
      for (const { tell } of asked.values()) tell(null)
      asked.clear()
    }
  }
}
