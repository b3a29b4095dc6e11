/** Something that says words aloud. */

export type Spoken =
  | { readonly kind: 'said' }
  | { readonly kind: 'stopped' }
  /** Nothing, or not all, could be heard. */
  | { readonly kind: 'failed'; readonly reason: MuteReason }

export type MuteReason = 'unsupported' | 'no-voice' | 'needs-tap' | 'not-answering' | 'engine-failed'

export type MouthState = { readonly kind: 'ready' } | { readonly kind: 'mute'; readonly reason: MuteReason }

/** `slow` for somebody who did not follow. */
export type Pace = 'slow'

export interface Mouth {
  /** Says one text and resolves at the real end of the sound, or when a watchdog gives up. Never rejects. */
  say(text: string, language: string, pace?: Pace): Promise<Spoken>
  /** Stops at once; the pending `say` resolves as stopped. */
  stop(): void
  /** Call inside a tap: some browsers allow sound only from then on. */
  unlock(): void
  state(): MouthState
  onState(tell: (state: MouthState) => void): () => void
}
