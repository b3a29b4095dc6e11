/** Which clips there are for one procedure, as the server tells its devices. */
import type { Pronunciation } from '../spoken/speakable.ts'

export interface ManifestClip {
  /** What it says, as spoken. */
  readonly spoken: string
  /** SHA-256 of its bytes, lower-case hex. */
  readonly hash: string
  readonly bytes: number
  readonly ms: number
}

export interface SpeechManifest {
  /** The language of the clips; BCP 47. */
  readonly language: string
  /** How many there will be once all are rendered. */
  readonly total: number
  readonly clips: readonly ManifestClip[]
  /** The shop's own way to say words: the clips were made by it, so what is looked up must be too. */
  readonly pronunciations: readonly Pronunciation[]
}
