/** Tells every open page at once that a run has moved on. */
export interface Moved {
  readonly runId: string
  readonly position: number
}

export interface Live {
  tell(moved: Moved): void
  /** Returns how to stop being told. */
  listen(tell: (moved: Moved) => void): () => void
  /** Ends every open stream; `onEnd` callbacks run once. */
  end(): void
  onEnd(call: () => void): () => void
}

export function createLive(): Live {
  const listeners = new Set<(moved: Moved) => void>()
  const endings = new Set<() => void>()
  return {
    tell(moved) {
      for (const tell of listeners) tell(moved)
    },
    listen(tell) {
      listeners.add(tell)
      return () => listeners.delete(tell)
    },
    end() {
      for (const call of endings) call()
    },
    onEnd(call) {
      endings.add(call)
      return () => endings.delete(call)
    }
  }
}
