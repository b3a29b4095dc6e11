import { useState } from 'preact/hooks'
import { useStore } from '../use-store.ts'
import type { RecordsDesk } from '../../app/records-desk.ts'
import type { RunRecord } from '../../core/record/run-record.ts'
import { MEANINGS, type Meaning } from '../../core/run/event.ts'
import { Choice, Field } from '../parts/field.tsx'
import { Hold } from '../parts/hold.tsx'
import { useSurroundings } from '../surroundings.ts'
import { recordsScreenWordsEn as texts } from './words.en.ts'

export interface RecordFormProps {
  readonly desk: RecordsDesk
  readonly record: RunRecord
  readonly onDone: () => void
}

/** Name and meaning, then a deliberate hold: no voice and no passing touch signs. */
export function SignForm({ desk, record, onDone }: RecordFormProps) {
  const { app } = useSurroundings()
  const { operator } = useStore(app.$settings)
  const [name, setName] = useState(operator)
  const [meaning, setMeaning] = useState<Meaning>('review')
  return (
    <section class="form-fields">
      <h2>{texts.signTitle}</h2>
      <Field label={texts.signer} value={name} onValue={setName} autocomplete="name" longest={200} />
      <Choice
        label={texts.meaning}
        value={meaning}
        options={MEANINGS.map((one) => [one, texts.meanings[one]] as const)}
        onValue={setMeaning}
      />
      <p>{texts.signHint}</p>
      <Hold disabled={name.trim() === ''} onHeld={() => void desk.sign(record.run, name.trim(), meaning).then(onDone)}>
        {texts.sign}
      </Hold>
    </section>
  )
}
