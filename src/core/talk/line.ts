/** One thing to say. Shown exactly as written; the voice gets it through `spoken/speakable`. */
import type { LaneId } from '../procedure/procedure.ts'

/** Most urgent first. */
export const PRIORITIES = ['alarm', 'caution', 'answer', 'step', 'remark'] as const
export type Priority = (typeof PRIORITIES)[number]

export interface Line {
  readonly priority: Priority
  readonly text: string
  readonly lane: LaneId | null
  /** Only where it is not the usual one. */
  readonly pace?: 'slow'
}
