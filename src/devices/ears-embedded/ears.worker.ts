/** Runs as a worker: an utterance takes longer to judge than a frame may. */
import { desk } from './desk.ts'
import type { ToDesk } from './desk-messages.ts'
import { onnxModels } from './models-onnx.ts'

const atDesk = desk(onnxModels, (message) => postMessage(message))

addEventListener('message', ({ data }: MessageEvent<ToDesk>) => atDesk.take(data))
