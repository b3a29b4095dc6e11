/** What an operator means, however it was said: spoken words, a key, a pedal or a touch become one of these. */
import type { LaneId, ReadingUnit } from '../procedure/procedure.ts'
import type { Answer } from '../run/event.ts'

export const PLAIN_INTENTS = [
  'done',
  'next',
  'repeat',
  'take-back',
  'pause',
  'resume',
  'how-long',
  'ready-when',
  'what-now',
  'why',
  'why-here',
  'more',
  'slower',
  'where',
  'help',
  'yes',
  'no',
  'quiet',
  'problem',
  'corrected',
  'new-part'
] as const
export type PlainIntent = (typeof PLAIN_INTENTS)[number]

/** How a number that is told in steps goes on. */
export const NUMBER_STEPS = ['higher', 'lower', 'far-higher', 'far-lower', 'that-is-it', 'other-scale'] as const
export type NumberStep = (typeof NUMBER_STEPS)[number]

export type Intent =
  | { readonly [Type in PlainIntent]: { readonly type: Type } }[PlainIntent]
  | { readonly type: 'lane'; readonly lane: LaneId }
  /** The whole confirming phrase of the called step was said. */
  | { readonly type: 'phrase' }
  /** A key, pedal or touch target was held down long enough. */
  | { readonly type: 'held' }
  | { readonly type: 'number'; readonly value: number; readonly unit: ReadingUnit | null }
  | { readonly type: 'number-step'; readonly step: NumberStep }
  /** An answer entered and confirmed on the screen: no reading back needed. */
  | { readonly type: 'answer'; readonly answer: Answer }
  | { readonly type: 'correction'; readonly action: string }
  | { readonly type: 'report'; readonly lane: LaneId; readonly text: string }
