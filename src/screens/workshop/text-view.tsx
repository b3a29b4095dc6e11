/** The draft as the text that it is, with line numbers. */
import { useEffect, useRef, useState } from 'preact/hooks'
import { useWorkshopWords } from './use-workshop-words.ts'
import { useDesk } from './workshop-context.ts'

const PAUSE_MS = 600

export function TextView() {
  const { editor, draft, findings, line } = useDesk()
  const words = useWorkshopWords()
  const [typed, setTyped] = useState<string | null>(null)
  const area = useRef<HTMLTextAreaElement>(null)
  const gutter = useRef<HTMLPreElement>(null)
  const timer = useRef<ReturnType<typeof setTimeout> | undefined>(undefined)
  const now = useRef<string | null>(null)

  const commit = () => {
    clearTimeout(timer.current)
    if (now.current === null) return
    editor.write(now.current)
    now.current = null
    setTyped(null)
  }
  useEffect(() => commit, [])
  useEffect(() => {
    const field = area.current
    if (field === null || line === null) return
    const before = field.value.split('\n').slice(0, line - 1)
    const from = before.reduce((sum, each) => sum + each.length + 1, 0)
    const end = field.value.indexOf('\n', from)
    field.focus()
    field.setSelectionRange(from, end < 0 ? field.value.length : end)
    field.scrollTop = (field.scrollHeight / Math.max(1, field.value.split('\n').length)) * Math.max(0, line - 6)
  }, [line])

  const text = typed ?? draft.text
  const faulty = new Map(findings.map((finding) => [finding.line, finding.weight]))
  const numbers = Array.from({ length: draft.text.split('\n').length }, (_, at) => {
    const weight = faulty.get(at + 1)
    return `${weight === undefined ? ' ' : weight === 'error' ? '✕' : '!'}${String(at + 1).padStart(4)}`
  })
  return (
    <section class="draft-text">
      <p class="draft-hint">{words.textHint}</p>
      <div class="draft-text-field">
        <pre ref={gutter} aria-hidden="true">
          {numbers.join('\n')}
        </pre>
        <textarea
          ref={area}
          aria-label={words.textView}
          spellcheck={false}
          wrap="off"
          value={text}
          onScroll={({ currentTarget }) => {
            if (gutter.current) gutter.current.scrollTop = currentTarget.scrollTop
          }}
          onInput={({ currentTarget }) => {
            now.current = currentTarget.value
            setTyped(currentTarget.value)
            clearTimeout(timer.current)
            timer.current = setTimeout(commit, PAUSE_MS)
          }}
          onBlur={commit}
        />
      </div>
    </section>
  )
}
