/** Held by the tab that speaks and listens for a run, and asked for by every other tab that shows one. */
export const VOICE_LOCK = 'voice'

/** One holder at a time among the tabs of this browser. */
export interface Locks {
  /** `this-tab`: the browser has no locks, and another tab would not be noticed. */
  readonly reach: 'all-tabs' | 'this-tab'
  /** Runs `work` while no other tab holds `name`. */
  exclusively<T>(name: string, work: () => Promise<T>): Promise<T>
  /** Asks for `name` and keeps it until released or the tab closes; `held` is called when it is ours. */
  hold(name: string, held: () => void): () => void
}
