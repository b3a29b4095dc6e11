/** A thread of its own for rendering: a tenth of a second of work for each second of speech must not hold up an answer. */
import { parentPort } from 'node:worker_threads'
import { openRenderer } from './render-clip.ts'

export interface ToWorker {
  readonly id: number
  readonly spoken: string
}

export interface FromWorker {
  readonly id: number
  readonly clip: { readonly bytes: Uint8Array; readonly ms: number } | null
}

const rendering = openRenderer()
parentPort?.on('message', ({ id, spoken }: ToWorker) => {
  void rendering
    .then((render) => render(spoken))
    .then((clip): FromWorker => ({ id, clip }))
    .then((answer) => parentPort?.postMessage(answer, []))
})
