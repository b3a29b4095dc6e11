/** Commands are said on their own. What comes out of a stretch of talking is not one. */
import { FRAME_MS } from './sound.ts'
import type { Segment } from './segmenter.ts'

/** `power` is its loudness, on any scale that stays the same. */
export interface Uttered extends Segment {
  readonly power: number
}

const PAUSE_FRAMES = 600 / FRAME_MS
const LATELY_FRAMES = 3000 / FRAME_MS
const MOST_TALK = 0.4
/** Times the power: talk so far below an utterance (7 dB) is that of others, farther away, and may go on around it. */
const NEARER = 10 ** 0.7

export interface Isolation {
  /** Whether an utterance stands alone behind what was noted. */
  alone(uttered: Uttered): boolean
  note(uttered: Uttered): void
}

export function isolation(): Isolation {
  let noted: Uttered[] = []
  return {
    alone({ start, power }) {
      const before = noted.filter(
        (one) => one.start < start && one.end > start - LATELY_FRAMES && one.power * NEARER > power
      )
      const talk = before.reduce((sum, one) => sum + one.end - Math.max(one.start, start - LATELY_FRAMES), 0)
      return before.every(({ end }) => start - end >= PAUSE_FRAMES) && talk < MOST_TALK * LATELY_FRAMES
    },
    note(uttered) {
      noted = [...noted.filter(({ end }) => end > uttered.start - LATELY_FRAMES), uttered]
    }
  }
}
