import type { RefObject } from 'preact'
import { useEffect, useRef } from 'preact/hooks'

/**
 * Moves the keyboard's focus to a panel that opens, unless a field in it has it already: what had the focus is gone
 * from the screen. The element needs `tabIndex={-1}`.
 */
export function useFocusOnOpen<E extends HTMLElement>(): RefObject<E | null> {
  const ref = useRef<E | null>(null)
  useEffect(() => {
    const element = ref.current
    if (element && !element.contains(document.activeElement)) element.focus({ preventScroll: true })
  }, [])
  return ref
}
