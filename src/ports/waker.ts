/** A second, independent way to be woken at a time, off the main thread. First path to fire wins. */
export interface Waker {
  /** Calls `wake` at or after `inMs` from now; the same key replaces an earlier one. Returns a cancel. */
  wakeIn(key: string, inMs: number, wake: () => void): () => void
  close(): void
}
