import type { ComponentChildren } from 'preact'

export interface PressProps {
  readonly onPress: () => void
  readonly children: ComponentChildren
  /** `main`: the answer to the call; `work`: used with wet hands; `plain`: used at the screen. */
  readonly size?: 'main' | 'work' | 'plain'
  readonly label?: string
  readonly disabled?: boolean
  readonly pressed?: boolean
}

/** A button for touch, mouse and keyboard. */
export function Press({ onPress, children, size = 'plain', label, disabled, pressed }: PressProps) {
  return (
    <button
      type="button"
      class={`press ${size}`}
      aria-label={label}
      aria-pressed={pressed}
      disabled={disabled}
      onClick={(event) => {
        // A finger must not leave the focus behind: the next pedal press would work this button.
        if (event.detail > 0) event.currentTarget.blur()
        onPress()
      }}
    >
      {children}
    </button>
  )
}
