import type { ReadableAtom } from 'nanostores'
import { useLayoutEffect, useState } from 'preact/hooks'

/**
 * The value of a store; the component is rendered anew when it changes. Preact renders everything that one change
 * reaches together, before the next frame.
 */
export function useStore<Value>(store: ReadableAtom<Value>): Value {
  const value = store.get()
  const [, renderWith] = useState<unknown>()
  useLayoutEffect(() => {
    const changed = () => renderWith({})
    // It may have changed between rendering and now.
    if (store.get() !== value) changed()
    return store.listen(changed)
  }, [store])
  return value
}
