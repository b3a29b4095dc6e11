import { atom, type ReadableAtom } from 'nanostores'

/** The state of a port as a store. */
export function stateOf<T>(port: { state(): T; onState(tell: (state: T) => void): () => void }): ReadableAtom<T> {
  const $state = atom<T>(port.state())
  port.onState((state) => $state.set(state))
  return $state
}
