/** Something that turns speech into words. */
import type { Speaker } from '../core/ears/listener.ts'

export type DeafReason =
  | 'unsupported'
  | 'denied'
  | 'no-engine'
  | 'no-microphone'
  | 'not-answering'
  | 'other-tab'
  | 'language-missing'

export type EarsState =
  | { readonly kind: 'off' }
  | { readonly kind: 'starting' }
  | { readonly kind: 'listening' }
  /** Only the attention word counts now. */
  | { readonly kind: 'waiting-for-word' }
  /** Closed on purpose while the app speaks or rings. */
  | { readonly kind: 'gated' }
  /** Between two tries; `untilSteady` is on the clock's steady line. */
  | { readonly kind: 'retrying'; readonly reason: DeafReason; readonly untilSteady: number }
  | { readonly kind: 'deaf'; readonly reason: DeafReason }

/** The browser's own recogniser, or the one that comes with the page. */
export type EarsName = 'browser' | 'embedded'

export interface Heard {
  /** Best first. Confidence 0 to 1; engines that give none report 0. */
  readonly alternatives: readonly { readonly words: string; readonly confidence: number }[]
  /** Steady time at which the utterance was first noticed. */
  readonly startedSteady: number
  /** So close to other words or other speech that it must be asked about before anything is done. */
  readonly unsure?: boolean
}

export interface PlainEars {
  /**
   * Begins to listen and keeps listening, through every recoverable failure, until `stop`. Ears that can only take one
   * utterance at a time (press to talk) are off again after each, and every press is a `start`. Deaf ears stay deaf.
   */
  start(language: string): void
  stop(): void
  /** Forgets why the ears went deaf, or cuts a retry short. For an operator's tap only, never for a timer. */
  tryAgain(): void
  /** Closes the ears while something is being said; what began before `open` is dropped. */
  gate(): void
  open(): void
  /**
   * What may be said now, null for anything, and by whom: by anybody, if nothing else is told. Ears that know every word
   * do not need to be told.
   */
  expect(words: readonly string[] | null, speaker?: Speaker): void
  /** Whose ears these are. */
  which(): EarsName
  state(): EarsState
  /** One call for each finished utterance. Returns how to stop being told. */
  onHeard(tell: (heard: Heard) => void): () => void
  /** Somebody said something short that was almost one of the expected phrases; these are the closest, best first. */
  onMissed(tell: (closest: readonly string[]) => void): () => void
  onState(tell: (state: EarsState) => void): () => void
}

export interface Ears extends PlainEars {
  /**
   * For loud places: what is said counts only for some seconds after one of these phrases, the one that is heard best
   * first; null for always.
   */
  attend(phrases: readonly string[] | null): void
}
