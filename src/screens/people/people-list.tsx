import { useState } from 'preact/hooks'
import type { PeopleDesk, PersonListing } from '../../app/people-desk.ts'
import { ROLES, type Role } from '../../core/record/account-kinds.ts'
import { Choice, Field } from '../parts/field.tsx'
import { Press } from '../parts/press.tsx'
import { Form } from './form.tsx'
import { usePeopleWords } from './use-people-words.ts'

export interface PeopleListProps {
  readonly desk: PeopleDesk
  readonly people: readonly PersonListing[]
  /** Whoever looks at it. */
  readonly role: Role
  readonly mayChange: boolean
}

export function PeopleList({ desk, people, role, mayChange }: PeopleListProps) {
  const texts = usePeopleWords()
  const mayManage = (other: Role) => role === 'owner' || other === 'operator'
  return (
    <section class="people-part">
      <h2>{texts.people}</h2>
      <ul class="people-rows">
        {people.map((person) => (
          <PersonRow
            key={person.id}
            desk={desk}
            person={person}
            roles={mayChange && mayManage(person.role) ? ROLES.filter(mayManage) : []}
          />
        ))}
      </ul>
      {mayChange && <AddPerson desk={desk} roles={ROLES.filter(mayManage)} />}
    </section>
  )
}

interface PersonRowProps {
  readonly desk: PeopleDesk
  readonly person: PersonListing
  /** What the person may be made; none where nothing may be changed. */
  readonly roles: readonly Role[]
}

function PersonRow({ desk, person, roles }: PersonRowProps) {
  const texts = usePeopleWords()
  const [open, setOpen] = useState(false)
  const [asking, setAsking] = useState<'nothing' | 'pin' | 'name'>('nothing')
  const [typed, setTyped] = useState('')
  const ask = (what: 'pin' | 'name') => {
    setTyped(what === 'name' ? person.name : '')
    setAsking(what)
  }
  const send = () => {
    setAsking('nothing')
    return asking === 'pin' ? desk.setPin(person.id, typed) : desk.changePerson(person.id, { name: typed })
  }
  const state = [
    texts.roles[person.role],
    ...(person.isActive ? [] : [texts.left]),
    ...(person.hasSecret ? [] : [texts.noSecret(person.role)])
  ]
  return (
    <li class="people-row" aria-label={person.name}>
      <div>
        <p class="people-name">{person.name}</p>
        <p>{state.join(', ')}</p>
      </div>
      {roles.length > 0 && (
        <Press pressed={open} onPress={() => setOpen(!open)}>
          {texts.change}
        </Press>
      )}
      {open && roles.length > 0 && (
        <div class="people-choices people-changes">
          {person.isActive && person.role === 'operator' && <Press onPress={() => ask('pin')}>{texts.setPin}</Press>}
          {person.isActive && person.role !== 'operator' && (
            <Press onPress={() => void desk.passwordCode(person)}>{texts.passwordCode}</Press>
          )}
          <Press onPress={() => ask('name')}>{texts.rename}</Press>
          {person.isActive &&
            roles
              .filter((role) => role !== person.role)
              .map((role) => (
                <Press key={role} onPress={() => void desk.changePerson(person.id, { role })}>
                  {texts.makeRole(role)}
                </Press>
              ))}
          <Press onPress={() => void desk.changePerson(person.id, { isActive: !person.isActive })}>
            {person.isActive ? texts.leaves : texts.back}
          </Press>
        </div>
      )}
      {asking !== 'nothing' && (
        <Form
          title={asking === 'pin' ? texts.setPin : texts.rename}
          act={asking === 'pin' ? texts.setPin : texts.rename}
          ready={typed.trim() !== ''}
          onSend={send}
        >
          <Field
            label={asking === 'pin' ? texts.pin : texts.name}
            value={typed}
            onValue={setTyped}
            longest={asking === 'pin' ? 8 : 60}
          />
        </Form>
      )}
    </li>
  )
}

function AddPerson({ desk, roles }: { readonly desk: PeopleDesk; readonly roles: readonly Role[] }) {
  const texts = usePeopleWords()
  const [name, setName] = useState('')
  const [role, setRole] = useState<Role>('operator')
  const [pin, setPin] = useState('')
  return (
    <Form
      title={texts.add}
      act={texts.addIt}
      ready={name.trim() !== ''}
      onSend={async () => {
        await desk.addPerson(name.trim(), role, pin)
        // What was typed meanwhile is the next one's.
        setName((now) => (now === name ? '' : now))
        setPin((now) => (now === pin ? '' : now))
      }}
    >
      <Field label={texts.name} value={name} onValue={setName} longest={60} />
      {roles.length > 1 && (
        <Choice
          label={texts.role}
          value={role}
          options={roles.map((one) => [one, `${texts.roles[one]}: ${texts.roleHints[one]}`] as const)}
          onValue={setRole}
        />
      )}
      {role === 'operator' && <Field label={texts.pin} value={pin} onValue={setPin} hint={texts.pinHint} longest={8} />}
    </Form>
  )
}
