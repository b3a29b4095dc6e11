import type { Clock } from '../ports/clock.ts'
import type { Key, Keys } from '../ports/keys.ts'

/** Pedals bounce: a second press of the same key this soon (ms) is the first one again. */
export const DEBOUNCE_MS = 250

/** Keys that work a control which the keyboard has moved to. */
const CONTROL_KEYS = new Set(['Enter', ' '])
const CONTROLS = 'button, a[href], summary, [role="button"]'
const EDITABLE = 'input, textarea, select, [contenteditable=""], [contenteditable="true"]'

/** What is needed of the element that has the focus. */
interface Focused {
  matches(selector: string): boolean
}

export interface KeyHost {
  readonly window: EventTarget
  /** The element that has the focus. */
  focused(): Focused | null
}

const browserHost = (): KeyHost => ({ window: globalThis.window, focused: () => document.activeElement })

export function domKeys(clock: Clock, host: KeyHost = browserHost()): Keys {
  return {
    take(taker) {
      let down: { readonly key: Key; readonly since: number; readonly cancelHold: () => void } | null = null
      let last: { readonly code: string; readonly at: number } | null = null

      function isOurs(event: KeyboardEvent): boolean {
        if (event.ctrlKey || event.altKey || event.metaKey || event.isComposing) return false
        const focused = host.focused()
        if (focused?.matches(EDITABLE)) return false
        // A finger leaves the focus on what it touched; only someone who moved there by keyboard means that control.
        if (CONTROL_KEYS.has(event.key) && focused?.matches(`:is(${CONTROLS}):focus-visible`)) return false
        return taker.uses({ code: event.code, key: event.key })
      }

      function letGo(): void {
        down?.cancelHold()
        down = null
        taker.holding(null)
      }

      function onDown(given: Event): void {
        const event = given as KeyboardEvent
        if (!isOurs(event)) return
        event.preventDefault()
        event.stopPropagation()
        if (event.repeat || down || bounced(event)) return
        const key: Key = { code: event.code, key: event.key }
        const since = clock.steady()
        last = { code: key.code, at: since }
        const longest = taker.longest()
        const cancelHold = clock.after(longest, () => {
          letGo()
          taker.pressed({ ...key, heldMs: longest })
        })
        down = { key, since, cancelHold }
        taker.holding(key)
      }

      function onUp(given: Event): void {
        const event = given as KeyboardEvent
        if (!down || event.code !== down.key.code) return
        // Browsers click a focused button when the space bar comes up.
        event.preventDefault()
        const press = { ...down.key, heldMs: clock.steady() - down.since }
        letGo()
        taker.pressed(press)
      }

      /** Digits are typed fast and shown before they are recorded, so they may follow each other at once. */
      function bounced(event: KeyboardEvent): boolean {
        return !/^\d$/.test(event.key) && last?.code === event.code && clock.steady() - last.at < DEBOUNCE_MS
      }

      // The release of a key goes to another window when this one loses the focus.
      const onBlur = () => letGo()
      host.window.addEventListener('keydown', onDown, { capture: true })
      host.window.addEventListener('keyup', onUp, { capture: true })
      host.window.addEventListener('blur', onBlur)
      return () => {
        letGo()
        host.window.removeEventListener('keydown', onDown, { capture: true })
        host.window.removeEventListener('keyup', onUp, { capture: true })
        host.window.removeEventListener('blur', onBlur)
      }
    }
  }
}
