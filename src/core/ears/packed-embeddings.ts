/** Embeddings in little space: each utterance as its number of windows, a scale, and signed bytes. */
import { EMBEDDING_SIZE } from './sound.ts'

const HEAD_BYTES = 5
const LARGEST = 127

export function packed(utterances: readonly Float32Array[]): Uint8Array {
  const size = utterances.reduce((sum, { length }) => sum + HEAD_BYTES + length, 0)
  const bytes = new Uint8Array(size)
  const view = new DataView(bytes.buffer)
  let at = 0
  for (const utterance of utterances) {
    const scale = Math.max(1e-6, ...utterance.map(Math.abs)) / LARGEST
    view.setUint8(at, utterance.length / EMBEDDING_SIZE)
    view.setFloat32(at + 1, scale, true)
    utterance.forEach((value, k) => view.setInt8(at + HEAD_BYTES + k, Math.round(value / scale)))
    at += HEAD_BYTES + utterance.length
  }
  return bytes
}

/** @throws RangeError when the bytes are cut short. */
export function unpacked(bytes: Uint8Array): readonly Float32Array[] {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  const utterances: Float32Array[] = []
  for (let at = 0; at < bytes.length;) {
    const length = view.getUint8(at) * EMBEDDING_SIZE
    const scale = view.getFloat32(at + 1, true)
    const start = at + HEAD_BYTES
    utterances.push(Float32Array.from({ length }, (_, k) => view.getInt8(start + k) * scale))
    at = start + length
  }
  return utterances
}
