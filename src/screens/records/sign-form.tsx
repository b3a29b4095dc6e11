import { useState } from 'preact/hooks'
import type { PeopleDesk } from '../../app/people-desk.ts'
import type { RecordsDesk } from '../../app/records-desk.ts'
import type { RunRecord } from '../../core/record/run-record.ts'
import { MEANINGS, type Meaning } from '../../core/run/event.ts'
import { Choice } from '../parts/field.tsx'
import { Hold } from '../parts/hold.tsx'
import { Press } from '../parts/press.tsx'
import { Notice } from '../people/notice.tsx'
import { Elevate, SignIn } from '../people/sign-in.tsx'
import { usePeople } from '../people/use-people.ts'
import { useSurroundings } from '../surroundings.ts'
import { useStore } from '../use-store.ts'
import { useRecordsWords } from './use-records-words.ts'

export interface RecordFormProps {
  readonly desk: RecordsDesk
  readonly record: RunRecord
  readonly onDone: () => void
}

/** Who signs shows it with a password, just before. */
export function SignForm(props: RecordFormProps) {
  const people = usePeople()
  const texts = useRecordsWords()
  return (
    <section class="form-fields">
      <h2>{texts.signTitle}</h2>
      {people && <SignedBy people={people} {...props} />}
    </section>
  )
}

function SignedBy({ people, ...props }: RecordFormProps & { readonly people: PeopleDesk }) {
  const texts = useRecordsWords()
  const { app } = useSurroundings()
  const me = useStore(people.$me)
  const elevated = useStore(people.$elevated)
  if (me === null) return <p role="alert">{texts.signAway}</p>
  if (me.shop === 'unowned')
    return (
      <>
        <p>{texts.signNoOwner}</p>
        <Press onPress={() => void app.showPeople()}>{texts.signPeople}</Press>
      </>
    )
  if (me.person && elevated) return <SignNow name={me.person.name} {...props} />
  return (
    <>
      <Notice desk={people} />
      {me.person ? <Elevate desk={people} /> : <SignIn desk={people} />}
    </>
  )
}

/** What it means, then a deliberate hold: no voice and no passing touch signs. */
function SignNow({ name, desk, record, onDone }: RecordFormProps & { readonly name: string }) {
  const texts = useRecordsWords()
  const [meaning, setMeaning] = useState<Meaning>('review')
  return (
    <>
      <p>{texts.signAs(name)}</p>
      <Choice
        label={texts.meaning}
        value={meaning}
        options={MEANINGS.map((one) => [one, texts.meanings[one]] as const)}
        onValue={setMeaning}
      />
      <p>{texts.signHint}</p>
      <Hold onHeld={() => void desk.sign(record.run, meaning).then(onDone)}>{texts.sign}</Hold>
    </>
  )
}
