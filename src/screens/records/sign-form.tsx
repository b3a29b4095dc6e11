import { useState } from 'preact/hooks'
import type { RecordsDesk } from '../../app/records-desk.ts'
import type { RunRecord } from '../../core/record/run-record.ts'
import { MEANINGS, type Meaning } from '../../core/run/event.ts'
import { Choice } from '../parts/field.tsx'
import { Hold } from '../parts/hold.tsx'
import { recordsScreenWordsEn as texts } from './words.en.ts'

export interface RecordFormProps {
  readonly desk: RecordsDesk
  readonly record: RunRecord
  readonly onDone: () => void
}

/** What it means, then a deliberate hold: no voice and no passing touch signs. */
export function SignForm({ desk, record, onDone }: RecordFormProps) {
  const [meaning, setMeaning] = useState<Meaning>('review')
  return (
    <section class="form-fields">
      <h2>{texts.signTitle}</h2>
      <Choice
        label={texts.meaning}
        value={meaning}
        options={MEANINGS.map((one) => [one, texts.meanings[one]] as const)}
        onValue={setMeaning}
      />
      <p>{texts.signHint}</p>
      <Hold onHeld={() => void desk.sign(record.run, meaning).then(onDone)}>{texts.sign}</Hold>
    </section>
  )
}
