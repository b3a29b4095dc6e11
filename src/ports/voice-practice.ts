/** Practising the words that the ears on this device listen for. Exists only where they do. */
import type { TakeFault } from '../core/ears/practice.ts'

/** Whose voice, in which language. */
export interface Practiser {
  readonly operator: string
  readonly language: string
}

export type PracticeNews =
  | { readonly kind: 'level'; /** Loudest sample of the last moment, 0 to 1. */ readonly peak: number }
  | { readonly kind: 'take'; readonly takes: number }
  | { readonly kind: 'fault'; readonly fault: TakeFault }
  /** Kept, but so close to another phrase that the two may be mixed up. */
  | { readonly kind: 'sounds-like'; readonly other: string; readonly takes: number }
  | { readonly kind: 'deaf'; readonly why: 'denied' | 'no-microphone' | 'not-kept' | 'no-models' }

export interface VoicePractice {
  /** From now on the ears go by what this voice practised. */
  use(who: Practiser): Promise<void>
  /** How many takes there are of each phrase. */
  takes(who: Practiser): Promise<ReadonlyMap<string, number>>
  /** Listens for takes of one phrase until the returned function is called. */
  practise(who: Practiser, words: string, tell: (news: PracticeNews) => void): () => void
  /** Forgets one phrase, or all of this voice. */
  forget(who: Practiser, words: string | null): Promise<void>
}
