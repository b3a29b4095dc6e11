/** The draft as the text that it is, with line numbers. */
import { useEffect, useLayoutEffect, useMemo, useRef } from 'preact/hooks'
import { useWorkshopWords } from './use-workshop-words.ts'
import { useDesk } from './workshop-context.ts'

const PAUSE_MS = 600

/** A key changes the field alone: with thousands of lines, anything more would be felt. */
export function TextView() {
  const { editor, draft, line } = useDesk()
  const words = useWorkshopWords()
  const area = useRef<HTMLTextAreaElement>(null)
  const gutter = useRef<HTMLPreElement>(null)
  const timer = useRef<ReturnType<typeof setTimeout> | undefined>(undefined)

  const commit = () => {
    clearTimeout(timer.current)
    if (area.current) editor.write(area.current.value)
  }
  useLayoutEffect(() => {
    const field = area.current
    // Writing the same again would move the cursor to the end.
    if (field && field.value !== draft.text) field.value = draft.text
  }, [draft.text])
  useLayoutEffect(() => () => commit(), [])
  useEffect(() => {
    if (area.current && line !== null) goToLine(area.current, line)
  }, [line])

  return (
    <section class="draft-text">
      <p class="draft-hint">{words.textHint}</p>
      <div class="draft-text-field">
        <pre ref={gutter} aria-hidden="true">
          <LineNumbers />
        </pre>
        <textarea
          ref={area}
          aria-label={words.textView}
          spellcheck={false}
          wrap="off"
          onScroll={({ currentTarget }) => {
            if (gutter.current) gutter.current.scrollTop = currentTarget.scrollTop
          }}
          onInput={() => {
            clearTimeout(timer.current)
            timer.current = setTimeout(commit, PAUSE_MS)
          }}
          onBlur={commit}
        />
      </div>
    </section>
  )
}

/** Those with something to look at are marked. */
function LineNumbers() {
  const { draft, findings } = useDesk()
  return useMemo(() => {
    const faulty = new Map(findings.map((finding) => [finding.line, finding.weight]))
    const numbers = Array.from({ length: draft.text.split('\n').length }, (_, at) => {
      const weight = faulty.get(at + 1)
      return `${weight === undefined ? ' ' : weight === 'error' ? '✕' : '!'}${String(at + 1).padStart(4)}`
    })
    return <>{numbers.join('\n')}</>
  }, [draft.text, findings])
}

function goToLine(field: HTMLTextAreaElement, line: number): void {
  const lines = field.value.split('\n')
  const from = lines.slice(0, line - 1).reduce((sum, each) => sum + each.length + 1, 0)
  field.focus()
  field.setSelectionRange(from, from + (lines[line - 1]?.length ?? 0))
  field.scrollTop = (field.scrollHeight / lines.length) * Math.max(0, line - 6)
}
