/** The last seconds of frames, so that an utterance can be taken out once its ends are known. */
import { BANDS, FRAME_MS } from './sound.ts'
import type { Segment } from './segmenter.ts'
import type { Utterance } from './utterance.ts'

const KEPT = 8000 / FRAME_MS
const ROOM_FRAMES = 40
/** The very beginning of an utterance may be taken for room. */
const ROOM_GAP = 20

export interface FrameStore {
  push(frame: Float32Array): void
  /** Null when it began before what is kept. */
  utterance(segment: Segment): Utterance | null
}

export function frameStore(): FrameStore {
  const kept = new Float32Array(KEPT * BANDS)
  let count = 0
  const frames = (start: number, end: number) =>
    Float32Array.from({ length: (end - start) * BANDS }, (_, at) => {
      const frame = start + Math.floor(at / BANDS)
      return kept[(frame % KEPT) * BANDS + (at % BANDS)] ?? 0
    })
  return {
    push(frame) {
      kept.set(frame, (count % KEPT) * BANDS)
      count += 1
    },
    utterance({ start, end }) {
      const first = Math.max(0, count - KEPT, start - ROOM_GAP - ROOM_FRAMES)
      if (start < count - KEPT || end <= start) return null
      // Speech from the first moment on leaves no room to be heard; then its own first frame has to do.
      const last = Math.max(first + 1, Math.min(start, start - ROOM_GAP))
      return { speech: frames(start, end), room: frames(first, last) }
    }
  }
}
