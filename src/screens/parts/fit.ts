import type { RefObject } from 'preact'
import { useLayoutEffect, useRef } from 'preact/hooks'

/** Below this share of the wanted size a text rather scrolls. */
const SMALLEST = 0.26
const STEPS = 7

/**
 * Makes what is inside the element that gets the returned ref as large as it can be without overflowing, by the custom property `--fit`
 * (1 = the size wanted for the reading distance). `what` changes when the content does.
 */
export function useFit<E extends HTMLElement>(what: string): RefObject<E | null> {
  const ref = useRef<E | null>(null)
  useLayoutEffect(() => {
    const element = ref.current
    if (!element) return
    fit(element)
    const observer = new ResizeObserver(() => fit(element))
    observer.observe(element)
    return () => observer.disconnect()
  }, [what])
  return ref
}

function fit(element: HTMLElement): void {
  const fits = (share: number) => {
    element.style.setProperty('--fit', String(share))
    return element.scrollHeight <= element.clientHeight && element.scrollWidth <= element.clientWidth
  }
  if (fits(1)) return
  let [low, high] = [SMALLEST, 1]
  for (let step = 0; step < STEPS; step += 1) {
    const middle = (low + high) / 2
    if (fits(middle)) low = middle
    else high = middle
  }
  fits(low)
}
