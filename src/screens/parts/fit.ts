import type { RefObject } from 'preact'
import { useLayoutEffect, useRef } from 'preact/hooks'

/** Below this share of the wanted size a text rather scrolls. */
const SMALLEST = 0.26
/**
 * Sizes are tried on a grid: the browser keeps the letters of a size it has drawn before, and a new one costs a slow
 * tablet more than all the rest of the change.
 */
const GRID = 1 / 32

/**
 * Makes what is inside the element that gets the returned ref as large as it can be without overflowing, by the custom property `--fit`
 * (1 = the size wanted for the reading distance). `what` changes when the content does.
 */
export function useFit<E extends HTMLElement>(what: string): RefObject<E | null> {
  const ref = useRef<E | null>(null)
  useLayoutEffect(() => {
    const element = ref.current
    if (!element) return
    let fitted = ''
    const size = () => `${element.clientWidth} ${element.clientHeight}`
    const fitToRoom = () => {
      // An observer tells the size once to begin with, which has been looked at already.
      if (size() === fitted) return
      fit(element)
      fitted = size()
    }
    fitToRoom()
    const fitAnew = () => fit(element)
    const observer = new ResizeObserver(fitToRoom)
    observer.observe(element)
    // The page's own letters may come after the first words stood in others.
    document.fonts.addEventListener('loadingdone', fitAnew)
    return () => {
      observer.disconnect()
      document.fonts.removeEventListener('loadingdone', fitAnew)
    }
  }, [what])
  return ref
}

function fit(element: HTMLElement): void {
  /** How much of the room it takes in the direction that is scarcer: more than 1 does not fit. */
  const taken = (share: number) => {
    element.style.setProperty('--fit', String(share))
    const { scrollHeight, scrollWidth, clientHeight, clientWidth } = element
    return Math.max(scrollHeight / Math.max(1, clientHeight), scrollWidth / Math.max(1, clientWidth))
  }
  let over = taken(1)
  if (over <= 1) return
  // On the grid: `low` is taken to fit, `high` does not.
  let [low, high] = [Math.floor(SMALLEST / GRID), Math.round(1 / GRID)]
  let tried = high
  while (high - low > 1) {
    // A text half as large takes about a quarter of the room.
    const guess = Math.floor(tried / Math.sqrt(over))
    tried = Math.min(Math.max(guess, low + 1), high - 1)
    over = taken(tried * GRID)
    if (over <= 1) low = tried
    else high = tried
  }
  if (tried !== low) taken(low * GRID)
}
