/** Tells every open page at once that a run has moved on. */
export interface Moved {
  readonly runId: string
  readonly position: number
}

export interface Live {
  tell(moved: Moved): void
  /** `onEnd` runs once, when the server stops; at once if it is stopping already. Returns how to stop being told. */
  listen(tell: (moved: Moved) => void, onEnd: () => void): () => void
  /** Ends every open stream, and any that still comes. */
  end(): void
}

interface Listener {
  readonly tell: (moved: Moved) => void
  readonly onEnd: () => void
}

export function createLive(): Live {
  const listeners = new Set<Listener>()
  let ended = false
  return {
    tell(moved) {
      for (const listener of listeners) listener.tell(moved)
    },
    listen(tell, onEnd) {
      const listener = { tell, onEnd }
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
