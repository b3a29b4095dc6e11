import type { ComponentChildren } from 'preact'
import { useEffect, useRef, useState } from 'preact/hooks'
import { HOLD_MS } from '../../app/keys.ts'

/** A finger that wanders further (CSS px, about 10 mm on a tablet) is wiping, not holding. */
const WANDER_PX = 55

export interface HoldProps {
  readonly onHeld: () => void
  readonly children: ComponentChildren
  readonly disabled?: boolean
  /** A key that stands for this button is down: show its hold too. */
  readonly keyDown?: boolean
}

/** A button that acts only when it is held down; a second finger, a wandering one or an early release call it off. */
export function Hold({ onHeld, children, disabled = false, keyDown = false }: HoldProps) {
  const [holding, setHolding] = useState(false)
  const stop = useRef<() => void>(() => {})

  function begin(): void {
    if (disabled) return
    stop.current()
    const timer = setTimeout(() => {
      stop.current()
      onHeld()
    }, HOLD_MS)
    const cancelOnSecond = () => stop.current()
    // Listens from the next contact on; the present one has already come through here.
    const listening = setTimeout(() => window.addEventListener('pointerdown', cancelOnSecond, { capture: true }))
    setHolding(true)
    stop.current = () => {
      clearTimeout(timer)
      clearTimeout(listening)
      window.removeEventListener('pointerdown', cancelOnSecond, { capture: true })
      setHolding(false)
      stop.current = () => {}
    }
  }

  const from = useRef({ x: 0, y: 0 })
  useEffect(() => () => stop.current(), [])

  return (
    <button
      type="button"
      class={`press main hold ${holding || keyDown ? 'holding' : ''}`}
      disabled={disabled}
      onPointerDown={(event) => {
        if (!event.isPrimary || event.button !== 0) return
        from.current = { x: event.clientX, y: event.clientY }
        event.currentTarget.setPointerCapture(event.pointerId)
        begin()
      }}
      onPointerMove={(event) => {
        if (Math.hypot(event.clientX - from.current.x, event.clientY - from.current.y) > WANDER_PX) stop.current()
      }}
      onPointerUp={(event) => {
        stop.current()
        event.currentTarget.blur()
      }}
      onPointerCancel={() => stop.current()}
      onContextMenu={(event) => event.preventDefault()}
      onKeyDown={(event) => {
        if ((event.key === 'Enter' || event.key === ' ') && !event.repeat) begin()
      }}
      onKeyUp={() => stop.current()}
      onBlur={() => stop.current()}
    >
      <span class="hold-fill" aria-hidden="true" />
      <span class="hold-text">{children}</span>
    </button>
  )
}
