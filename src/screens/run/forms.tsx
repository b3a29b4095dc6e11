import { useStore } from '../use-store.ts'
import type { ComponentChildren } from 'preact'
import { useState } from 'preact/hooks'
import { givenName } from '../../app/given-name.ts'
import type { ChosenPerson } from '../../app/settings.ts'
import type { Call } from '../../core/run/call.ts'
import { handsOf } from '../../core/run/run.ts'
import { textIn } from '../../core/talk/call-words.ts'
import { Choice, Field } from '../parts/field.tsx'
import { Hold } from '../parts/hold.tsx'
import { LanguageChoice } from '../parts/language-choice.tsx'
import { later } from '../parts/later.tsx'
import { Press } from '../parts/press.tsx'
import { useRun, useSurroundings } from '../surroundings.ts'
import { PanelFrame } from './panel-frame.tsx'
import { useTold } from './use-told.ts'
import { usePanelWords } from './use-panel-words.ts'

const Names = later(async () => (await import('../people/names.tsx')).Names)

/** Where it is and what it is; that lane then stops until it is put right. */
export function ProblemForm() {
  const { conductor, panels, session, course } = useRun()
  const words = usePanelWords()
  const { manner } = useTold()
  const [lane, setLane] = useState(handsOf(session.$state.get().run, session.device).focus ?? course.lanes[0]?.id ?? '')
  const [text, setText] = useState('')
  return (
    <PanelFrame title={words.problem.title} name="form">
      <Submitting
        onSubmit={() => {
          panels.close()
          void conductor.intend({ type: 'report', lane, text: text.trim() }, 'typed')
        }}
        ready={text.trim() !== ''}
        text={words.problem.report}
      >
        <Choice
          label={words.problem.where}
          value={lane}
          options={course.lanes.map(({ id, name }) => [id, textIn(name, manner)] as const)}
          onValue={setLane}
        />
        <Field label={words.problem.what} value={text} onValue={setText} focused />
      </Submitting>
    </PanelFrame>
  )
}

/** What was done about a stopped or late lane, where none of the listed corrections fits. */
export function CorrectionForm({ call }: { readonly call: Call }) {
  const { conductor, panels } = useRun()
  const { correction: words } = usePanelWords()
  const [action, setAction] = useState('')
  if (call.kind !== 'stopped' && call.kind !== 'late') return null
  return (
    <PanelFrame title={words.title} name="form">
      <Submitting
        onSubmit={() => {
          panels.close()
          void conductor.intend({ type: 'correction', action: action.trim() }, 'typed')
        }}
        ready={action.trim() !== ''}
        text={words.record}
      >
        <Field label={words.what} value={action} onValue={setAction} focused />
      </Submitting>
    </PanelFrame>
  )
}

/** The same words that could be spoken, for where nobody listens. */
export function WordsForm() {
  const { conductor } = useRun()
  const { typed: words } = usePanelWords()
  const { app } = useSurroundings()
  const [said, setSaid] = useState('')
  const line = useStore(app.speaker.$line)
  return (
    <PanelFrame title={words.title} name="form">
      <Submitting
        onSubmit={() => {
          setSaid('')
          void conductor.hearWords([said.trim()], 'typed')
        }}
        ready={said.trim() !== ''}
        text={words.send}
      >
        <Field label={words.field} value={said} onValue={setSaid} focused />
        <p class="form-note">{line?.text}</p>
      </Submitting>
    </PanelFrame>
  )
}

export function HandOverForm() {
  const { conductor, panels } = useRun()
  const { handOver: words } = usePanelWords()
  const { app } = useSurroundings()
  const [to, setTo] = useState('')
  const [person, setPerson] = useState<ChosenPerson | null>(null)
  return (
    <PanelFrame title={words.title} name="form">
      <Submitting
        onSubmit={() => {
          panels.close()
          void conductor.carryOut(
            { type: 'hand-over', to: to.trim(), ...givenName({ person }, to, app.now()) },
            'typed'
          )
        }}
        ready={to.trim() !== ''}
        text={words.record}
      >
        <Names
          name={to}
          person={person}
          onChoose={(chosen) => {
            setTo(chosen.name)
            setPerson(chosen)
          }}
        />
        <Field label={words.to} value={to} onValue={setTo} focused longest={60} />
        <LanguageChoice operator={to} />
      </Submitting>
    </PanelFrame>
  )
}

/** Ends the run for good: a reason, and a button that must be held. */
export function EndEarlyForm() {
  const { conductor, panels } = useRun()
  const { endEarly: words } = usePanelWords()
  const [reason, setReason] = useState('')
  return (
    <PanelFrame title={words.title} name="form">
      <p class="form-note">{words.warning}</p>
      <div class="form-fields">
        <Field label={words.reason} value={reason} onValue={setReason} focused />
        <Hold
          disabled={reason.trim() === ''}
          onHeld={() => {
            panels.close()
            void conductor.carryOut({ type: 'abandon', reason: reason.trim() }, 'touch')
          }}
        >
          {words.hold}
        </Hold>
      </div>
    </PanelFrame>
  )
}

interface SubmittingProps {
  readonly onSubmit: () => void
  readonly ready: boolean
  readonly text: string
  readonly children: ComponentChildren
}

/** Fields and the button that sends them; Enter in a field does the same. */
function Submitting({ onSubmit, ready, text, children }: SubmittingProps) {
  return (
    <form
      class="form-fields"
      onSubmit={(event) => {
        event.preventDefault()
        if (ready) onSubmit()
      }}
    >
      {children}
      <Press size="main" disabled={!ready} onPress={onSubmit}>
        {text}
      </Press>
    </form>
  )
}
