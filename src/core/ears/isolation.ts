/** Commands are said on their own. What comes out of a stretch of talking is not one. */
import { FRAME_MS } from './sound.ts'
import type { Segment } from './segmenter.ts'

const PAUSE_FRAMES = 600 / FRAME_MS
const LATELY_FRAMES = 3000 / FRAME_MS
const MOST_TALK = 0.4

export interface Isolation {
  /** Whether a segment stands alone behind what was noted. */
  alone(segment: Segment): boolean
  note(segment: Segment): void
}

export function isolation(): Isolation {
  let noted: Segment[] = []
  return {
    alone({ start }) {
      const before = noted.filter(({ end }) => end > start - LATELY_FRAMES)
      const talk = before.reduce((sum, one) => sum + one.end - Math.max(one.start, start - LATELY_FRAMES), 0)
      return before.every(({ end }) => start - end >= PAUSE_FRAMES) && talk < MOST_TALK * LATELY_FRAMES
    },
    note(segment) {
      noted = [...noted.filter(({ end }) => end > segment.start - LATELY_FRAMES), segment]
    }
  }
}
