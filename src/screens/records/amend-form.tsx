import { useState } from 'preact/hooks'
import { useStore } from '../use-store.ts'
import { shopDateTime } from '../../app/shop-time.ts'
import { answerWords, type Reader } from '../../core/record/record-lines.ts'
import { textFor } from '../../core/talk/quantities.ts'
import type { CheckRow } from '../../core/record/run-record.ts'
import type { Answer } from '../../core/run/event.ts'
import { parseNumber } from '../../core/sanitizer/parse-number.ts'
import { Field } from '../parts/field.tsx'
import { Press } from '../parts/press.tsx'
import { Pick } from '../parts/pick.tsx'
import { useSurroundings } from '../surroundings.ts'
import { useReader } from './use-reader.ts'
import type { RecordFormProps } from './sign-form.tsx'
import { useRecordsWords } from './use-records-words.ts'

/** An answer that was written down wrong: old and new value both stay, with who, when and why. */
export function AmendForm({ desk, record, onDone }: RecordFormProps) {
  const texts = useRecordsWords()
  const reader = useReader()
  const { app } = useSurroundings()
  const { operator } = useStore(app.$settings)
  const [name, setName] = useState(operator)
  const [entry, setEntry] = useState(record.checks[0]?.id ?? '')
  const [typed, setTyped] = useState('')
  const [reason, setReason] = useState('')
  const check = record.checks.find(({ id }) => id === entry)
  const was = check && (check.amendments.at(-1)?.now ?? check.answer)
  const now = was ? answerIn(typed, was, reader) : null
  const isWhole = was && now && name.trim() !== '' && reason.trim() !== ''
  const keep = () =>
    isWhole &&
    void desk.add(record.run, name.trim(), { type: 'amended', entry, was, now, reason: reason.trim() }).then(onDone)
  return (
    <section class="form-fields">
      <h2>{texts.amend}</h2>
      <p>{texts.amendHint}</p>
      <Field label={texts.signer} value={name} onValue={setName} autocomplete="name" />
      <Pick
        label={texts.amendWhich}
        value={entry}
        options={record.checks.map((one) => [one.id, named(one, record.zone, reader)] as const)}
        onValue={setEntry}
      />
      <Field label={texts.amendNow} value={typed} onValue={setTyped} longest={20} />
      <Field label={texts.amendReason} value={reason} onValue={setReason} />
      <Press disabled={!isWhole} onPress={() => void keep()}>
        {texts.keep}
      </Press>
    </section>
  )
}

function named({ at, ask, answer }: CheckRow, zone: string, { words, language }: Reader): string {
  return `${shopDateTime(at, zone, language)} ${textFor(ask, language)} ${answerWords(answer, words)}`
}

/** Of the same kind as it was; null while it is none. */
function answerIn(typed: string, was: Answer, { words: { yes, no } }: Reader): Answer | null {
  const word = typed.trim().toLowerCase()
  if (was.kind === 'yes-no')
    return word === yes ? { ...was, value: 'yes' } : word === no ? { ...was, value: 'no' } : null
  const parsed = parseNumber(typed)
  if (parsed.kind !== 'number') return null
  if (was.kind === 'count')
    return Number.isInteger(parsed.value) && parsed.value >= 0 ? { ...was, value: parsed.value } : null
  return { ...was, value: parsed.value }
}
