/** Tells every open page at once that a run has moved on. */
import type { Moved } from './storage/records.ts'

export interface Listener {
  moved(moved: Moved): void
  /** The server stops: no more will come. */
  ended(): void
}

export interface Live {
  tell(moved: Moved): void
  /** Returns how to stop being told. */
  listen(listener: Listener): () => void
  /** Ends every open stream, and each one opened later. */
  end(): void
}

export function createLive(): Live {
  const listeners = new Set<Listener>()
  let over = false
  return {
    tell(moved) {
      for (const listener of listeners) listener.moved(moved)
    },
    listen(listener) {
      if (over) listener.ended()
      else listeners.add(listener)
      return () => void listeners.delete(listener)
    },
    end() {
      over = true
      for (const listener of listeners) listener.ended()
      listeners.clear()
    }
  }
}
