import { listeners } from './listeners.ts'

/** A small plain state that tells its listeners when it really changed. */
export interface ToldState<S> {
  now(): S
  set(state: S): void
  onChange(tell: (state: S) => void): () => void
}

export function toldState<S>(first: S): ToldState<S> {
  let current = first
  const told = listeners<S>()
  return {
    now: () => current,
    set(state) {
      if (JSON.stringify(state) === JSON.stringify(current)) return
      current = state
      told.tell(state)
    },
    onChange: told.add
  }
}
