import { useRef } from 'preact/hooks'
import { listAt, valueAt, wordsAt } from '../../core/procedure/edit/draft-values.ts'
import { newId } from '../../core/procedure/edit/new-id.ts'
import { Press } from '../parts/press.tsx'
import { WordsField } from './draft-fields.tsx'
import { HearButtons } from './hear-buttons.tsx'
import { StepForm } from './step-form.tsx'
import { StepList } from './step-list.tsx'
import { useWorkshopWords } from './use-workshop-words.ts'
import { stepPath, useDesk } from './workshop-context.ts'

/** The order on one side, and the step that is chosen on the other. */
export function StepsTab() {
  const { chosen } = useDesk()
  const form = useRef<HTMLDivElement>(null)
  const open = () => {
    // On a narrow screen the form stands below the list.
    form.current?.scrollIntoView({ block: 'nearest' })
    form.current?.querySelector<HTMLElement>('textarea, input')?.focus({ preventScroll: true })
  }
  return (
    <div class="draft-two">
      <StepList onOpen={open} />
      <div ref={form} class="draft-chosen" key={`${chosen.stage}-${chosen.step ?? ''}`}>
        <HearButtons of={chosen.step === null ? 'stage' : 'step'} />
        {chosen.step === null ? <StageForm /> : <StepForm />}
        <Tools />
      </div>
    </div>
  )
}

function StageForm() {
  const { chosen } = useDesk()
  const words = useWorkshopWords()
  return (
    <div class="draft-form">
      <WordsField path={['stages', chosen.stage, 'stage']} label={words.stageName} />
    </div>
  )
}

function Tools() {
  const { editor, value, chosen, choose } = useDesk()
  const words = useWorkshopWords()
  const { stage, step } = chosen
  if (step === null) {
    return (
      <Press onPress={() => void editor.edit({ kind: 'remove', list: ['stages'], at: stage })}>
        {words.removeStage}
      </Press>
    )
  }
  const list = ['stages', stage, 'steps']
  const copy = () => {
    const ids = listAt(value, ['stages']).flatMap((_, at) =>
      listAt(value, ['stages', at, 'steps']).map((one) => wordsAt(one, ['step']))
    )
    const original = valueAt(value, stepPath(chosen)) as object
    const id = newId(wordsAt(original, ['step']), 'step', ids)
    void editor
      .edit({ kind: 'insert', list, at: step + 1, value: { ...original, step: id } })
      .then((done) => (done ? choose({ stage, step: step + 1 }) : undefined))
  }
  return (
    <div class="draft-row">
      <Press onPress={copy}>{words.copyStep}</Press>
      <Press onPress={() => void editor.edit({ kind: 'remove', list, at: step })}>{words.removeStep}</Press>
    </div>
  )
}
