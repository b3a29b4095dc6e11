/** Noise breaks phrases in two, where a stop is silent and what is around it drowns: "hello side", "call". */
import type { Segment } from './segmenter.ts'
import { FRAME_MS } from './sound.ts'

/** From the end of the one to the beginning of the other. */
const LONGEST_BREAK = 350 / FRAME_MS

/** A segment and the one right before it as one; null where there is none or it ended too long ago. */
export function joined(before: Segment | null, segment: Segment): Segment | null {
  return before && segment.start - before.end <= LONGEST_BREAK ? { start: before.start, end: segment.end } : null
}
