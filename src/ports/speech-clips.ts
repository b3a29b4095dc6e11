/** Rendered speech on this device: what a run can need is fetched before it is needed. */
import type { Pronunciation } from '../core/talk/spoken/speakable.ts'

export type ClipsState =
  /** Nothing asked for, or the server renders none. */
  | { readonly kind: 'none' }
  /** Some are still on their way, or still being rendered. */
  | { readonly kind: 'fetching'; readonly have: number; readonly total: number }
  | { readonly kind: 'whole'; readonly total: number }
  /** The server is away: what was kept before is used. */
  | { readonly kind: 'cut-off'; readonly have: number; readonly total: number }

export interface SpeechClips {
  /**
   * From now on the clips of this procedure version in this language (BCP 47) are wanted; goes on by itself until all are
   * here, or the server says that it has none.
   */
  want(procedureHash: string, language: string): void
  /** Has clips of these texts, as spoken, made and fetched; resolves when they are here or cannot be had. */
  prepare(spoken: readonly string[], language: string): Promise<void>
  /** Stops fetching. What is here stays in use. */
  rest(): void
  /** How the clips here were made to say the shop's own words. */
  pronunciations(): readonly Pronunciation[]
  state(): ClipsState
  onState(tell: (state: ClipsState) => void): () => void
}
