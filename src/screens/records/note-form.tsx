import { useState } from 'preact/hooks'
import { useStore } from '../use-store.ts'
import { NOTE_FIELDS, REMARK } from '../../core/record/note-fields.ts'
import { Field } from '../parts/field.tsx'
import { Press } from '../parts/press.tsx'
import { Pick } from '../parts/pick.tsx'
import { useSurroundings } from '../surroundings.ts'
import { useReader } from './use-reader.ts'
import type { RecordFormProps } from './sign-form.tsx'
import { useRecordsWords } from './use-records-words.ts'

/** What no step measures: lots, labels, remarks. A field that is written anew shows what it said before. */
export function NoteForm({ desk, record, onDone }: RecordFormProps) {
  const texts = useRecordsWords()
  const { words } = useReader()
  const { app } = useSurroundings()
  const { operator } = useStore(app.$settings)
  const [name, setName] = useState(operator)
  const [field, setField] = useState<string>(REMARK)
  const [value, setValue] = useState('')
  const keep = () => void desk.add(record.run, name.trim(), { type: 'noted', field, value: value.trim() }).then(onDone)
  return (
    <section class="form-fields">
      <h2>{texts.note}</h2>
      <Field label={texts.signer} value={name} onValue={setName} autocomplete="name" />
      <Pick
        label={texts.noteWhat}
        value={field}
        options={[REMARK, ...NOTE_FIELDS].map((one) => [one, words.note(one)] as const)}
        onValue={setField}
      />
      <Field label={texts.noteValue} value={value} onValue={setValue} longest={2000} />
      <Press disabled={name.trim() === '' || value.trim() === ''} onPress={keep}>
        {texts.keep}
      </Press>
    </section>
  )
}
