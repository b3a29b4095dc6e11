/** The page's own files on this device: whether it starts without the server, and whether a newer version is ready. */
export type PageUpdatesState =
  /** Not known yet, or being stored. */
  | { readonly kind: 'unknown' }
  /** `insecure`: plain http from another machine, where browsers keep no pages. `failed`: it could not be stored. */
  | { readonly kind: 'absent'; readonly reason: 'insecure' | 'unsupported' | 'failed' }
  /** Stored whole: the page starts without the server. */
  | { readonly kind: 'ready' }
  /** So is a newer version, which waits until it is taken or until no tab has the page open. */
  | { readonly kind: 'update-waiting' }
  /** It was not taken, because a tab of this browser has a run open. */
  | { readonly kind: 'update-held-back' }

export interface PageUpdates {
  state(): PageUpdatesState
  onState(tell: (state: PageUpdatesState) => void): () => void
  /** Stores the page if it is not stored yet, and looks for a newer version. Changes nothing by itself. */
  look(): void
  /** Puts the waiting version into service unless a run is open in any tab. */
  take(): void
  /** Told when a newer version is in service: this page is an older one until it is loaded again. */
  onTaken(tell: () => void): () => void
}
