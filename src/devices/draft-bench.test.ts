import { expect, test } from 'vitest'
import { SMALL } from '../../tests/helpers/a-procedure.ts'
import { NO_RULES } from '../core/sanitizer/shop-rules.ts'
import { workerBench, type BenchWorker } from './draft-bench.ts'
import type { NumberedDraftAnswer, NumberedDraftQuestion } from './draft-bench.worker.ts'
import { answerDraftQuestion } from './draft-question.ts'

class FakeWorker extends EventTarget {
  readonly asked: NumberedDraftQuestion[] = []
  terminated = false
  postMessage(question: NumberedDraftQuestion) {
    this.asked.push(structuredClone(question))
  }
  terminate() {
    this.terminated = true
  }
  answer(index: number) {
    const { number, question } = this.asked[index] ?? expect.unreachable('nothing was asked')
    const data: NumberedDraftAnswer = structuredClone({ number, answer: answerDraftQuestion(question) })
    this.dispatchEvent(Object.assign(new Event('message'), { data }))
  }
}

function world() {
  const worker = new FakeWorker()
  return { worker, bench: workerBench(() => worker as unknown as BenchWorker) }
}

test('each question gets its own answer, in whatever order they come', async () => {
  const { worker, bench } = world()
  const read = bench.read(SMALL, NO_RULES)
  const edited = bench.edit(SMALL, [{ kind: 'set', path: ['title'], value: 'Other' }])
  worker.answer(1)
  worker.answer(0)
  expect((await read)?.checked).toMatchObject({ kind: 'sound', findings: [] })
  expect(await edited).toMatchObject({ kind: 'edited', text: expect.stringContaining('title: Other') })
  const trial = bench.trial(
    await read.then((found) => (found?.checked.kind === 'sound' ? found.checked.procedure : expect.unreachable())),
    1
  )
  worker.answer(2)
  expect(await trial).toMatchObject({ missed: 0, isGivenUp: false })
})

test('a worker that breaks, or cannot be had, leaves no question without an end', async () => {
  const { worker, bench } = world()
  const read = bench.read(SMALL, NO_RULES)
  worker.dispatchEvent(new Event('error'))
  expect(await read).toBeNull()
  expect(worker.terminated).toBe(true)
  const forbidden = workerBench(() => {
    throw new Error('Workers are forbidden.')
  })
  expect(await forbidden.edit(SMALL, [])).toBeNull()
})

test('closed, it answers whoever still waits', async () => {
  const { worker, bench } = world()
  const read = bench.read(SMALL, NO_RULES)
  bench.close()
  expect([await read, worker.terminated]).toEqual([null, true])
})
