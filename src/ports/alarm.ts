/** The tone for a wait that is over. Speech and the full-screen change are the app's; this is sound only. */

export type AlarmState =
  | { readonly kind: 'ready' }
  | { readonly kind: 'silent'; readonly reason: 'needs-tap' | 'no-sound' }

export interface Alarm {
  /** Call inside a tap: browsers keep sound locked until then. */
  unlock(): void
  /**
   * Hands a tone to the sound hardware for later, so that it sounds on time even when the page is busy.
   * `inMs` from now; the same `key` replaces an earlier one. The returned function cancels it, also while it sounds.
   */
  schedule(key: string, inMs: number): () => void
  /**
   * Rings now, once (a burst); `urgency` 0 to 3 rises with every unanswered repeat. Resolves at its end, at once when no
   * sound can be made. Urgency 0 joins a scheduled tone that sounds already, so that two paths to one alarm ring once.
   */
  ring(urgency: number): Promise<void>
  /** Ends what sounds now; tones scheduled for later stay. */
  silence(): void
  state(): AlarmState
  onState(tell: (state: AlarmState) => void): () => void
}
