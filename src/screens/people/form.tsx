import type { ComponentChildren } from 'preact'
import { useState } from 'preact/hooks'

export interface FormProps {
  readonly title: string
  readonly why?: string
  readonly act: string
  readonly ready: boolean
  readonly onSend: () => Promise<void>
  readonly children: ComponentChildren
}

/** Some fields and what sends them, by Enter as well. */
export function Form({ title, why, act, ready, onSend, children }: FormProps) {
  const [sending, setSending] = useState(false)
  return (
    <form
      class="people-form form-fields"
      aria-label={title}
      onSubmit={(event) => {
        event.preventDefault()
        if (!ready || sending) return
        setSending(true)
        void onSend().finally(() => setSending(false))
      }}
    >
      <h2>{title}</h2>
      {why !== undefined && <p>{why}</p>}
      {children}
      <button type="submit" class="press plain" disabled={!ready || sending}>
        {act}
      </button>
    </form>
  )
}
