/** A renderer in another thread. The thread ends when nothing was asked for a while, and its memory with it. */
import { Worker } from 'node:worker_threads'
import type { Clip, Renderer } from './render-clip.ts'
import type { AskedOfWorker, FromWorker, ToWorker } from './speech-worker.ts'

const IDLE_MS = 10_000

/** `program`: a voice of this machine; null for the embedded one. */
export function renderInWorker(script: URL, program: string | null = null): Renderer {
  let worker: Worker | null = null
  let idle: NodeJS.Timeout | undefined
  let last = 0
  const asked = new Map<number, (clip: Clip | null) => void>()

  const over = () => {
    worker = null
    for (const answer of asked.values()) answer(null)
    asked.clear()
  }
  const started = (): Worker => {
    const made = new Worker(script, { workerData: { program } satisfies AskedOfWorker })
    made.on('message', ({ id, clip }: FromWorker) => {
      asked.get(id)?.(clip)
      asked.delete(id)
      if (asked.size > 0) return
      idle = setTimeout(() => void made.terminate(), IDLE_MS).unref()
    })
    made.on('error', over)
    made.on('exit', over)
    // It must not keep the server from ending.
    made.unref()
    return made
  }

  return (spoken) =>
    new Promise((answer) => {
      clearTimeout(idle)
      worker ??= started()
      last += 1
      asked.set(last, answer)
      worker.postMessage({ id: last, spoken } satisfies ToWorker, [])
    })
}
