/** A thread of its own for rendering: a tenth of a second of work for each second of speech must not hold up an answer. */
import { parentPort, workerData } from 'node:worker_threads'
import { openRenderer } from './render-clip.ts'

export interface ToWorker {
  readonly id: number
  readonly spoken: string
}

export interface AskedOfWorker {
  /** See `openRenderer`. */
  readonly program: string | null
}

export interface FromWorker {
  readonly id: number
  readonly clip: { readonly bytes: Uint8Array; readonly ms: number } | null
}

const { program } = workerData as AskedOfWorker
const rendering = openRenderer(program)
parentPort?.on('message', ({ id, spoken }: ToWorker) => {
  void rendering
    .then((render) => render(spoken))
    .then((clip): FromWorker => ({ id, clip }))
    .then((answer) => parentPort?.postMessage(answer, []))
})
