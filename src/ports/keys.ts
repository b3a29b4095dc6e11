/** Keys and foot pedals as they come in; what they mean is the app's business. */

/** A key, pedal or button held this long (ms) counts as held, not pressed. */
export const HOLD_MS = 800

export interface Key {
  /** The place on the keyboard (UI Events `code`). */
  readonly code: string
  /** What it writes or does (UI Events `key`). */
  readonly key: string
}

export interface KeyPress extends Key {
  /** How long it was down, ms; `HOLD_MS` or more is told while the key is still down. */
  readonly heldMs: number
}

export interface KeyTaker {
  /** Keys that are ours: they do nothing else on the page. Others stay with the browser. */
  uses(key: Key): boolean
  /** Once for each press: at its release, or as soon as it counts as held. */
  pressed(press: KeyPress): void
  /** A key of ours went down; null when it came up or counts as held. For showing how far a hold has come. */
  holding(key: Key | null): void
}

export interface Keys {
  /** Takes keys until the returned function is called. */
  take(taker: KeyTaker): () => void
}
