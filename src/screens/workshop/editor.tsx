/** One draft: its steps, its lists, its text, what is wrong with it, and what becomes of it. */
import { useEffect, useMemo, useState } from 'preact/hooks'
import type { DraftEditor } from '../../app/workshop/draft-editor.ts'
import type { PublishedVersion, Workshop } from '../../app/workshop/workshop.ts'
import type { DraftFinding } from '../../core/procedure/draft/check-draft.ts'
import { languagesIn, listAt, shownWords } from '../../core/procedure/edit/draft-values.ts'
import type { Procedure } from '../../core/procedure/procedure.ts'
import { Press } from '../parts/press.tsx'
import { saveFile } from '../records/save-file.ts'
import { useLanguage } from '../texts.ts'
import { useStore } from '../use-store.ts'
import { DifferenceView } from './difference-view.tsx'
import { HeadForm } from './head-form.tsx'
import { HearButtons } from './hear-buttons.tsx'
import { Overtaken } from './overtaken.tsx'
import { ProblemList } from './problem-list.tsx'
import { PublishForm, type AskedToPublish } from './publish-form.tsx'
import { StepsTab } from './steps-tab.tsx'
import { TextView } from './text-view.tsx'
import { TryView } from './try-view.tsx'
import { useWorkshopWords } from './use-workshop-words.ts'
import { DeskContext, type Chosen, type Tab } from './workshop-context.ts'

const TABS: readonly Tab[] = ['steps', 'head', 'text', 'try', 'changes', 'publish']

export interface EditorProps {
  readonly workshop: Workshop
  readonly editor: DraftEditor
  readonly published: PublishedVersion | null
}

export function Editor({ workshop, editor, published: offered }: EditorProps) {
  const published = offered?.procedure ?? null
  const words = useWorkshopWords()
  const draft = useStore(editor.$draft)
  const [chosen, setChosen] = useState<Chosen>({ stage: 0, step: 0 })
  const [tab, setTab] = useState<Tab>('steps')
  const [line, setLine] = useState<number | null>(null)
  const { read } = draft
  const value = read?.value ?? null
  const languages = useMemo(() => languagesIn(value), [value])
  const first = languages[0] ?? 'en'
  const language = useLanguage()
  const reading = languages.includes(language) ? language : first
  const findings = read?.checked.findings ?? []
  const procedure = read?.checked.kind === 'sound' ? read.checked.procedure : null
  const inList = within(chosen, value)
  const [asked, setAsked] = useState<AskedToPublish>({ note: '', reasons: {} })
  useKeysOfUndo(editor)

  function goTo(finding: DraftFinding): void {
    const [top, stage, list, step] = finding.path
    if (tab === 'text' || value === null || finding.path.length === 0) {
      setTab('text')
      setLine(null)
      requestAnimationFrame(() => setLine(finding.line))
      return
    }
    if (top !== 'stages') return setTab('head')
    setTab('steps')
    setChosen({ stage: Number(stage), step: list === 'steps' && step !== undefined ? Number(step) : null })
  }

  return (
    <DeskContext.Provider
      value={{
        ...{ workshop, editor, draft, value, languages, reading, findings, tab, line, goTo },
        chosen: inList,
        choose: setChosen,
        show: setTab
      }}
    >
      <header class="draft-head">
        <Press onPress={() => void workshop.list()}>{words.title}</Press>
        <h1>{shownWords(value, ['title'], reading, first) || editor.id}</h1>
        <Press disabled={!draft.canUndo} onPress={() => void editor.undo()}>
          {words.undo}
        </Press>
        <Press disabled={!draft.canRedo} onPress={() => void editor.redo()}>
          {words.redo}
        </Press>
        <Press onPress={() => saveFile({ name: `${editor.id}.yaml`, type: 'application/yaml', text: draft.text })}>
          {words.saveFile}
        </Press>
        <p class="draft-saving" role="status">
          {draft.saving.kind === 'not-kept'
            ? words.saving['not-kept'](draft.saving.detail)
            : draft.saving.kind === 'overtaken'
              ? words.overtaken.title
              : words.saving[draft.saving.kind]}
        </p>
      </header>
      {draft.saving.kind === 'overtaken' && <Overtaken theirs={draft.saving.theirs} />}
      <nav class="draft-tabs">
        {TABS.map((one) => (
          <button key={one} type="button" aria-current={one === tab ? 'page' : undefined} onClick={() => setTab(one)}>
            {words.tabs[one]}
          </button>
        ))}
      </nav>
      <div class={`draft-desk ${tab}`}>
        <div class="draft-main">
          {value === null && tab !== 'text' && read !== null && (
            <p class="state-note" role="alert">
              {words.unreadable}
            </p>
          )}
          {value !== null && tab === 'steps' && <StepsTab />}
          {value !== null && tab === 'head' && <HeadForm />}
          {tab === 'text' && <TextView />}
          {value !== null && tab === 'try' && (
            <>
              <HearButtons of="all" />
              <TryView published={published} procedure={procedure} />
            </>
          )}
          {offered && offered.hash !== editor.base && (tab === 'changes' || tab === 'publish') && (
            <p class="state-note" role="alert">
              {words.behind}
            </p>
          )}
          {tab === 'changes' && <Changes published={published} procedure={procedure} />}
          {tab === 'publish' && (
            <PublishForm published={published} procedure={procedure} asked={asked} onAsked={setAsked} />
          )}
        </div>
        <ProblemList />
      </div>
    </DeskContext.Provider>
  )
}

function Changes({
  published,
  procedure
}: {
  readonly published: Procedure | null
  readonly procedure: Procedure | null
}) {
  const words = useWorkshopWords()
  if (!procedure) return <p class="state-note">{words.trial.notSound}</p>
  return published ? <DifferenceView before={published} after={procedure} /> : <p>{words.noPublished}</p>
}

/** What is chosen may have been taken out, or be on its way back. */
function within({ stage, step }: Chosen, value: unknown): Chosen {
  const lastStage = Math.max(0, listAt(value, ['stages']).length - 1)
  const inStage = Math.min(stage, lastStage)
  const steps = listAt(value, ['stages', inStage, 'steps']).length
  return { stage: inStage, step: step === null || steps === 0 ? null : Math.min(step, steps - 1) }
}

/** Control or command with Z and Y, outside of fields: those have an undo of their own. */
function useKeysOfUndo(editor: DraftEditor): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      const inField = event.target instanceof HTMLElement && event.target.closest('input, textarea, select') !== null
      if (inField || !(event.ctrlKey || event.metaKey)) return
      const key = event.key.toLowerCase()
      const act = key === 'y' || (key === 'z' && event.shiftKey) ? editor.redo : key === 'z' ? editor.undo : null
      if (act === null) return
      event.preventDefault()
      void act()
    }
    addEventListener('keydown', onKey)
    return () => removeEventListener('keydown', onKey)
  }, [editor])
}
