import { useState } from 'preact/hooks'
import type { PeopleDesk } from '../../app/people-desk.ts'
import { Field } from '../parts/field.tsx'
import { Form } from './form.tsx'
import { usePeopleWords } from './use-people-words.ts'

/** A supervisor at the very device needs no code. */
export function Pair({ desk, needsCode }: { readonly desk: PeopleDesk; readonly needsCode: boolean }) {
  const texts = usePeopleWords()
  const [code, setCode] = useState('')
  const [name, setName] = useState('')
  return (
    <Form
      title={texts.pairTitle}
      why={texts.pairWhy}
      act={texts.pair}
      ready={name.trim() !== '' && (!needsCode || code.trim() !== '')}
      onSend={() => (needsCode ? desk.pair(code, name.trim()) : desk.pairHere(name.trim()))}
    >
      {needsCode && <Field label={texts.pairingCode} value={code} onValue={setCode} longest={20} />}
      <Field label={texts.deviceName} value={name} onValue={setName} hint={texts.deviceNameHint} longest={60} />
    </Form>
  )
}
