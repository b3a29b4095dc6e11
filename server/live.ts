/** Tells every open page at once that a run has moved on, or that other procedures are offered. */
export interface Moved {
  readonly runId: string
  readonly position: number
}

export interface Live {
  tell(moved: Moved): void
  /** Other versions are offered from now on. */
  offer(): void
  /** `onEnd` runs once, when the server stops; at once if it is stopping already. Returns how to stop being told. */
  listen(tell: (moved: Moved) => void, onEnd: () => void, onOffer?: () => void): () => void
  /** Ends every open stream, and any that still comes. */
  end(): void
}

interface Listener {
  readonly tell: (moved: Moved) => void
  readonly onEnd: () => void
  readonly onOffer: (() => void) | undefined
}

export function createLive(): Live {
  const listeners = new Set<Listener>()
  let ended = false
  return {
    tell(moved) {
      for (const listener of listeners) listener.tell(moved)
    },
    offer() {
      for (const listener of listeners) listener.onOffer?.()
    },
    listen(tell, onEnd, onOffer) {
      const listener = { tell, onEnd, onOffer }
      if (ended) onEnd()
      else listeners.add(listener)
      return () => void listeners.delete(listener)
    },
    end() {
      ended = true
      for (const listener of listeners) listener.onEnd()
      listeners.clear()
    }
  }
}
