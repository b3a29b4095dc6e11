import type { Clock } from '../ports/clock.ts'
import type { Contact, Touches } from '../ports/touches.ts'

/** A press comes this soon (ms) after the finger has left, or not at all. */
const CLICK_WITHIN_MS = 400

export function domTouches(clock: Clock, window: EventTarget): Touches {
  return {
    watch(watcher) {
      let refusedAt = Number.NEGATIVE_INFINITY
      const begun = new Set<number>()

      const contactOf = (event: PointerEvent): Contact => ({
        id: event.pointerId,
        at: clock.steady(),
        x: event.clientX,
        y: event.clientY,
        size: Math.max(event.width, event.height)
      })
      const ofFinger = (use: (event: PointerEvent) => void) => (given: Event) => {
        const event = given as PointerEvent
        if (event.pointerType === 'touch') use(event)
      }
      const swallow = (event: Event) => {
        event.preventDefault()
        event.stopImmediatePropagation()
      }

      const handlers: Readonly<Record<string, (event: Event) => void>> = {
        pointerdown: ofFinger((event) => {
          begun.add(event.pointerId)
          if (!watcher.began(contactOf(event))) event.stopImmediatePropagation()
        }),
        pointermove: ofFinger((event) => {
          if (begun.has(event.pointerId)) watcher.moved(contactOf(event))
        }),
        pointerup: ofFinger((event) => {
          if (!begun.delete(event.pointerId)) return
          if (!watcher.ended(contactOf(event))) refusedAt = clock.steady()
        }),
        pointercancel: ofFinger((event) => {
          begun.delete(event.pointerId)
          watcher.lost(event.pointerId)
        }),
        click(event) {
          // Keys make clicks too; theirs have no count.
          const isOfKeys = (event as MouseEvent).detail === 0
          if (!isOfKeys && clock.steady() - refusedAt < CLICK_WITHIN_MS) swallow(event)
        }
      }
      for (const [name, handler] of Object.entries(handlers)) window.addEventListener(name, handler, { capture: true })
      return () => {
        for (const [name, handler] of Object.entries(handlers))
          window.removeEventListener(name, handler, { capture: true })
      }
    }
  }
}
