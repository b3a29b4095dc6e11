/** Keys and foot pedals as they come in; what they mean is the app's business. */

/** A key, pedal or button held this long (ms) counts as held, not pressed. */
export const HOLD_MS = 800
/** With one switch only, a hold this long (ms) asks for everything else. */
export const LONG_HOLD_MS = 2500

export interface Key {
  /** The place on the keyboard (UI Events `code`). */
  readonly code: string
  /** What it writes or does (UI Events `key`). */
  readonly key: string
}

export interface KeyPress extends Key {
  /** How long it was down, ms; the longest hold that means anything is told while the key is still down. */
  readonly heldMs: number
}

export interface KeyTaker {
  /** Keys that are ours: they do nothing else on the page. Others stay with the browser. */
  uses(key: Key): boolean
  /** The longest hold that means anything, ms. */
  longest(): number
  /** Once for each press: at its release, or as soon as it has been held the longest. */
  pressed(press: KeyPress): void
  /** A key of ours went down; null when it came up or counts as held. For showing how far a hold has come. */
  holding(key: Key | null): void
}

export interface Keys {
  /** Takes keys until the returned function is called. */
  take(taker: KeyTaker): () => void
}
