/** Practising the words that the ears on this device listen for. Exists only where they do. */
import type { TakeFault } from '../core/ears/practice.ts'
import type { RunEvent } from '../core/run/event.ts'

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
  /** What was practised has gone its way to the server, or waits for it. */
  | { readonly kind: 'sharing'; readonly sharing: Sharing }
  | { readonly kind: 'deaf'; readonly why: 'denied' | 'no-microphone' | 'not-kept' | 'no-models' }

/**
 * What the person decided about keeping a voice on the server, and how far it has come there: agreed and done or still to
 * do, withdrawn or never agreed, withdrawn and still to do.
 */
export type Sharing = 'shared' | 'to-be-shared' | 'not-shared' | 'to-be-withdrawn'

export interface VoicePractice {
  /** From now on the ears go by what this voice practised, here or on another device that shares it. */
  use(who: Practiser): Promise<void>
  /** How many takes there are of each phrase. */
  takes(who: Practiser): Promise<ReadonlyMap<string, number>>
  /** Listens for takes of one phrase until the returned function is called. */
  practise(who: Practiser, words: string, tell: (news: PracticeNews) => void): () => void
  /** Forgets one phrase, or all of this voice, on the server as well where it is shared. */
  forget(who: Practiser, words: string | null): Promise<void>
  /**
   * What came of the words heard last: `events` of the run, of which the first `known` were there before. The ears learn
   * from commands that were heard with certainty and counted, once something else has counted after them.
   */
  cameOf(words: string, events: readonly RunEvent[], known: number): Promise<void>
  /** How many takes were learned from commands. */
  learned(who: Practiser): Promise<number>
  forgetLearned(who: Practiser): Promise<void>
  sharing(who: Practiser): Promise<Sharing>
  /** Only ever as the person decides. Refused: the server will never take it, and nothing was changed. */
  share(who: Practiser, wanted: boolean): Promise<Sharing | 'refused'>
}
