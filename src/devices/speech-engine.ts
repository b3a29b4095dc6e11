/** The embedded engine as the mouth sees it: texts in, sound out, in a worker that starts with the first text. */
import type { Sound } from '../core/talk/clips/ima-adpcm.ts'
import type { Clock } from '../ports/clock.ts'
import type { EngineAnswer, EngineQuestion } from './speech-engine.worker.ts'

/** The part of a worker that is used here. */
export interface EngineWorker {
  postMessage(question: EngineQuestion, transfer: Transferable[]): void
  addEventListener(type: 'message', listener: (event: { readonly data: EngineAnswer }) => void): void
  addEventListener(type: 'error', listener: () => void): void
  terminate(): void
}

/** Null when it cannot say that, or not in time. */
export type SpeechEngine = (text: string) => Promise<Sound | null>

/** What is said later than this is no answer any more. The first text may have to wait for the engine itself. */
const PATIENCE_MS = 4000

export function startEngineWorker(): EngineWorker {
  return new Worker(new URL('./speech-engine.worker.ts', import.meta.url), { type: 'module' })
}

export function speechEngine(start: () => EngineWorker, clock: Clock): SpeechEngine {
  const asked = new Map<number, (sound: Sound | null) => void>()
  let worker: EngineWorker | null = null
  let last = 0

  const broken = () => {
    worker?.terminate()
    worker = null
    for (const answer of asked.values()) answer(null)
    asked.clear()
  }
  const started = (): EngineWorker => {
    const fresh = start()
    fresh.addEventListener('message', ({ data }) => {
      asked.get(data.number)?.(data.sound)
      asked.delete(data.number)
    })
    fresh.addEventListener('error', broken)
    return fresh
  }

  return (text) =>
    new Promise((resolve) => {
      last += 1
      const number = last
      const cancel = clock.after(PATIENCE_MS, () => {
        asked.delete(number)
        resolve(null)
      })
      asked.set(number, (sound) => {
        cancel()
        resolve(sound)
      })
      try {
        worker ??= started()
        const question: EngineQuestion = { number, text }
        worker.postMessage(question, [])
      } catch {
        // Workers are forbidden here (a content security policy, say).
        broken()
      }
    })
}
