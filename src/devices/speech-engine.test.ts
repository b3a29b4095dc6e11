import { expect, test } from 'vitest'
import { fakeClock, promisesRun } from '../../tests/helpers/fake-clock.ts'
import type { Sound } from '../core/talk/clips/ima-adpcm.ts'
import { speechEngine, type EngineWorker } from './speech-engine.ts'
import type { EngineAnswer, EngineQuestion } from './speech-engine.worker.ts'

const SOUND: Sound = { rate: 16_000, pcm: new Int16Array(3) }

function world() {
  const clock = fakeClock()
  const workers: {
    asked: EngineQuestion[]
    answer: (answer: EngineAnswer) => void
    fail: () => void
    ended: boolean
  }[] = []
  let forbidden = false
  const start = (): EngineWorker => {
    if (forbidden) throw new DOMException('forbidden', 'SecurityError')
    const listeners: { message?: (event: { data: EngineAnswer }) => void; error?: () => void } = {}
    const one = {
      asked: [] as EngineQuestion[],
      answer: (data: EngineAnswer) => listeners.message?.({ data }),
      fail: () => listeners.error?.(),
      ended: false
    }
    workers.push(one)
    return {
      postMessage: (question) => void one.asked.push(question),
      addEventListener: (type: string, listener: never) => void Object.assign(listeners, { [type]: listener }),
      terminate: () => {
        one.ended = true
      }
    }
  }
  return { clock, workers, engine: speechEngine(start, clock), forbid: () => (forbidden = true) }
}

test('a worker starts with the first text and answers each by its number', async () => {
  const { engine, workers } = world()
  expect(workers).toHaveLength(0)
  const [one, two] = [engine('one'), engine('two')]
  workers[0]?.answer({ number: 2, sound: null })
  workers[0]?.answer({ number: 1, sound: SOUND })
  expect([await one, await two]).toEqual([SOUND, null])
  expect(workers).toHaveLength(1)
})

test('what comes too late is not waited for', async () => {
  const { engine, clock, workers } = world()
  const said = engine('one')
  await clock.pass(4000)
  expect(await said).toBe(null)
  workers[0]?.answer({ number: 1, sound: SOUND })
  expect(clock.pending()).toBe(0)
})

test('a worker that breaks is replaced at the next text', async () => {
  const { engine, workers } = world()
  const said = engine('one')
  workers[0]?.fail()
  expect(await said).toBe(null)
  const next = engine('two')
  workers[1]?.answer({ number: 2, sound: SOUND })
  expect(await next).toEqual(SOUND)
  expect(workers[0]?.ended).toBe(true)
})

test('where workers are forbidden it says nothing', async () => {
  const { engine, forbid } = world()
  forbid()
  expect(await engine('one')).toBe(null)
  await promisesRun()
})
