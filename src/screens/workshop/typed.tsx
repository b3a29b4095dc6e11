import { useEffect, useRef, useState } from 'preact/hooks'

/** So long after the last key; each commit reads the whole draft again, in another thread. */
const PAUSE_MS = 400

export interface TypedProps {
  readonly id: string
  readonly value: string
  /** Resolves with whether the draft took it. */
  readonly onCommit: (text: string) => Promise<boolean>
  readonly lines?: number
  readonly language?: string
  readonly invalid?: boolean
  readonly describedBy?: string | undefined
  readonly numeric?: boolean
}

/** Words being typed: shown at once, put into the draft when the hands rest or leave. */
export function Typed({ id, value, onCommit, lines = 1, language, invalid, describedBy, numeric }: TypedProps) {
  const [typed, setTyped] = useState<string | null>(null)
  const now = useRef({ typed, value, onCommit })
  now.current = { typed, value, onCommit }
  const timer = useRef<ReturnType<typeof setTimeout> | undefined>(undefined)

  const commit = () => {
    clearTimeout(timer.current)
    const { typed: text, value: before, onCommit: put } = now.current
    if (text === null) return
    if (text.trim() === before) return setTyped(null)
    void put(text.trim()).then((taken) => (taken ? undefined : setTyped(null)))
  }
  useEffect(() => commit, [])
  // The draft has caught up, or somebody went a step back.
  useEffect(() => setTyped((text) => (text === null || text.trim() === value ? null : text)), [value])

  const shared = {
    id,
    lang: language,
    value: typed ?? value,
    'aria-invalid': invalid === true,
    'aria-describedby': describedBy,
    onInput: ({ currentTarget }: { readonly currentTarget: { readonly value: string } }) => {
      now.current.typed = currentTarget.value
      setTyped(currentTarget.value)
      clearTimeout(timer.current)
      timer.current = setTimeout(commit, PAUSE_MS)
    },
    onBlur: commit
  }
  return lines === 1 ? (
    <input type="text" inputMode={numeric ? 'decimal' : undefined} autocomplete="off" {...shared} />
  ) : (
    <textarea rows={lines} maxLength={600} {...shared} />
  )
}
