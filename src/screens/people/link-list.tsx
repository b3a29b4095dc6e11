import { useState } from 'preact/hooks'
import { shopDateTime } from '../../app/shop-time.ts'
import type { LinkListing, PeopleDesk } from '../../app/people-desk.ts'
import { LINK_KINDS, type LinkKind } from '../../core/record/account-kinds.ts'
import { Choice, Field } from '../parts/field.tsx'
import { Press } from '../parts/press.tsx'
import { useSurroundings } from '../surroundings.ts'
import { useLanguage } from '../texts.ts'
import { Form } from './form.tsx'
import { usePeopleWords } from './use-people-words.ts'

export interface LinkListProps {
  readonly desk: PeopleDesk
  readonly links: readonly LinkListing[]
  readonly mayChange: boolean
}

export function LinkList({ desk, links, mayChange }: LinkListProps) {
  const texts = usePeopleWords()
  const { zone } = useSurroundings()
  const language = useLanguage()
  return (
    <section class="people-part">
      <h2>{texts.links}</h2>
      {links.length === 0 && <p>{texts.noLinks}</p>}
      <ul class="people-rows">
        {links.map(({ id, kind, note, machine, madeBy, expiresAt }) => (
          <li key={id} class="people-row" aria-label={note}>
            <div>
              <p class="people-name">{machine === null ? note : `${note}: ${machine}`}</p>
              <p>
                {texts.linkKinds[kind]}, {texts.until(shopDateTime(expiresAt, zone, language))}, {texts.madeBy(madeBy)}
              </p>
            </div>
            {mayChange && <Press onPress={() => void desk.endLink(id)}>{texts.endLink}</Press>}
          </li>
        ))}
      </ul>
      {mayChange && <MakeLink desk={desk} />}
    </section>
  )
}

function MakeLink({ desk }: { readonly desk: PeopleDesk }) {
  const texts = usePeopleWords()
  const [kind, setKind] = useState<LinkKind>('inspector')
  const [note, setNote] = useState('')
  const [machine, setMachine] = useState('')
  const [days, setDays] = useState('7')
  const count = /^\d{1,3}$/.test(days) ? Number(days) : 0
  return (
    <Form
      title={texts.makeLink}
      act={texts.makeLink}
      ready={note.trim() !== '' && count > 0}
      onSend={() =>
        desk.makeLink({
          kind,
          note: note.trim(),
          machine: kind === 'inspector' && machine.trim() !== '' ? machine.trim() : null,
          days: count
        })
      }
    >
      <Choice
        label={texts.linkKind}
        value={kind}
        options={LINK_KINDS.map((one) => [one, texts.linkKinds[one]] as const)}
        onValue={setKind}
      />
      <Field label={texts.linkFor} value={note} onValue={setNote} longest={120} />
      {kind === 'inspector' && <Field label={texts.linkMachine} value={machine} onValue={setMachine} longest={200} />}
      <Field label={texts.linkDays} value={days} onValue={setDays} longest={3} />
    </Form>
  )
}
