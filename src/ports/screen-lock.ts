/** Keeps the screen from going dark, and says so when it cannot. */
export type ScreenLockState =
  | { readonly kind: 'off' }
  | { readonly kind: 'kept' }
  | { readonly kind: 'lost'; readonly reason: 'unsupported' | 'refused' | 'hidden' }

export interface ScreenLock {
  /** Takes the lock and takes it again whenever the system drops it, until `release`. */
  keep(): void
  release(): void
  state(): ScreenLockState
  onState(tell: (state: ScreenLockState) => void): () => void
}
