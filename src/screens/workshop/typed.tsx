import { useEffect, useRef, useState } from 'preact/hooks'
import { useDesk } from './workshop-context.ts'

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
  const { editor, draft } = useDesk()
  const [typed, setTyped] = useState<string | null>(null)
  const now = useRef({ typed, value, onCommit })
  now.current = { typed, value, onCommit }
  /** What the draft was given and does not show yet. It may write it in another way. */
  const given = useRef<{ readonly text: string; isTaken: boolean } | null>(null)
  const timer = useRef<ReturnType<typeof setTimeout> | undefined>(undefined)

  const commit = () => {
    clearTimeout(timer.current)
    const text = now.current.typed?.trim()
    if (text === undefined) return
    if (text === (given.current?.text ?? now.current.value)) return given.current ? undefined : setTyped(null)
    const mine = { text, isTaken: false }
    given.current = mine
    void now.current.onCommit(text).then((isChanged) => {
      mine.isTaken = true
      if (!isChanged || editor.$draft.get().isRead) showDraft()
    })
  }
  /** What is shown is the draft's again, unless something else has been typed since. */
  const showDraft = () => {
    const { current } = given
    if (!current?.isTaken) return
    given.current = null
    setTyped((text) => (text?.trim() === current.text ? null : text))
  }
  useEffect(() => commit, [])
  useEffect(() => {
    if (draft.isRead) showDraft()
  }, [draft.read, draft.isRead])

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
