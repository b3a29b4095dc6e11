import { useState } from 'preact/hooks'
import { serverSaid } from '../../app/server-said.ts'
import type { Procedure } from '../../core/procedure/procedure.ts'
import { Field } from '../parts/field.tsx'
import { Press } from '../parts/press.tsx'
import { DifferenceView } from './difference-view.tsx'
import { useWorkshopWords } from './use-workshop-words.ts'
import { WithAuthority } from './with-authority.tsx'
import { useDesk } from './workshop-context.ts'

/** What is written here stays while somebody goes and looks at the steps once more. */
export interface AskedToPublish {
  readonly note: string
  /** By the key of the finding. */
  readonly reasons: Readonly<Record<string, string>>
}

export interface PublishFormProps {
  readonly published: Procedure | null
  readonly procedure: Procedure | null
  readonly asked: AskedToPublish
  readonly onAsked: (asked: AskedToPublish) => void
}

/** The last look before others work by it. */
export function PublishForm({ published, procedure, asked, onAsked }: PublishFormProps) {
  const { workshop, draft, findings } = useDesk()
  const words = useWorkshopWords()
  const { note, reasons } = asked
  const [refused, setRefused] = useState<string | null>(null)
  const [isWorking, setWorking] = useState(false)
  const errors = findings.filter(({ weight }) => weight === 'error').length
  const warnings = findings.filter(({ weight }) => weight === 'warning')
  const isComplete = note.trim() !== '' && warnings.every(({ key }) => (reasons[key] ?? '').trim() !== '')
  const publish = () => {
    setWorking(true)
    void workshop.publish(note.trim(), reasons).then((failure) => {
      setWorking(false)
      setRefused(failure && (failure.kind === 'unreachable' ? words.away : serverSaid(failure)))
    })
  }
  if (errors > 0 || !procedure) return <p class="state-note">{words.publish.errors(errors)}</p>
  return (
    <div class="draft-form">
      <p>{words.publish.rules}</p>
      {warnings.length > 0 && (
        <section>
          <h2>{words.publish.reasons}</h2>
          {warnings.map(({ key, rule, what }) => (
            <div key={key} class="draft-entry">
              <p>
                <b>{rule}</b>: {what}
              </p>
              <Field
                label={words.publish.reason}
                value={reasons[key] ?? ''}
                longest={1000}
                onValue={(reason) => onAsked({ note, reasons: { ...reasons, [key]: reason } })}
              />
            </div>
          ))}
        </section>
      )}
      <Field
        label={words.publish.note}
        value={note}
        longest={1000}
        onValue={(words) => onAsked({ note: words, reasons })}
      />
      {!isComplete && <p class="draft-hint">{words.publish.missing}</p>}
      {refused !== null && (
        <p class="state-note" role="alert">
          {words.notices.refused(refused)}
        </p>
      )}
      <WithAuthority>
        <Press disabled={!isComplete || !draft.isRead || isWorking} onPress={publish} size="work">
          {words.publish.go}
        </Press>
      </WithAuthority>
      <section>
        <h2>{words.tabs.changes}</h2>
        {published ? <DifferenceView before={published} after={procedure} /> : <p>{words.noPublished}</p>}
      </section>
    </div>
  )
}
