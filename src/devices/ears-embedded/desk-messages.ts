/** What page and worker of the embedded ears tell each other. */
import type { Candidate } from '../../core/ears/judge-utterance.ts'
import type { Finding, Speaker } from '../../core/ears/listener.ts'
import type { Takes } from '../../core/ears/phrasebook.ts'
import type { HeardTake } from '../../core/ears/practice.ts'
import type { Utterance } from '../../core/ears/utterance.ts'

export interface EarFiles {
  readonly embedding: Uint8Array
  readonly voice: Uint8Array
  readonly runtime: Uint8Array
  readonly otherSpeech: Uint8Array
  readonly startingPhrases: Uint8Array
}

export type ToDesk =
  | { readonly kind: 'prepare'; readonly files: EarFiles }
  /** What the operator practised; replaces what was told before. */
  | { readonly kind: 'practised'; readonly takes: readonly Takes[] }
  /** What may be said now; null for everything that is known. */
  | { readonly kind: 'listen-for'; readonly words: readonly string[] | null; readonly speaker: Speaker }
  /** A new stream of samples begins: for listening, or for practising these words. */
  | { readonly kind: 'begin'; readonly practising: string | null }
  | { readonly kind: 'samples'; readonly samples: Float32Array }

export type FromDesk =
  | { readonly kind: 'prepared' }
  | { readonly kind: 'broken'; readonly message: string }
  | {
      readonly kind: 'found'
      readonly how: Finding['kind']
      readonly candidates: readonly Candidate[]
      /** What was heard, where it was heard with much certainty. */
      readonly certain: Utterance | null
    }
  | { readonly kind: 'take'; readonly take: HeardTake; readonly soundsLike: string | null }
  | { readonly kind: 'level'; readonly peak: number }
