import { useState } from 'preact/hooks'
import type { PeopleDesk } from '../../app/people-desk.ts'
import { Field } from '../parts/field.tsx'
import { Press } from '../parts/press.tsx'
import { useStore } from '../use-store.ts'
import { Form } from './form.tsx'
import { SecretField } from './secret-field.tsx'
import { usePeopleWords } from './use-people-words.ts'

/** For those with a password. Names are offered where the device is paired; elsewhere they are typed. */
export function SignIn({ desk }: { readonly desk: PeopleDesk }) {
  const texts = usePeopleWords()
  const names = useStore(desk.$names).filter(({ signsIn }) => signsIn)
  const [name, setName] = useState('')
  const [password, setPassword] = useState('')
  return (
    <Form
      title={texts.signInTitle}
      why={texts.signInWhy}
      act={texts.signIn}
      ready={name.trim() !== '' && password !== ''}
      onSend={() => desk.signIn(name, password)}
    >
      {names.length > 0 && (
        <div class="people-choices">
          {names.map((one) => (
            <Press key={one.id} pressed={one.name === name} onPress={() => setName(one.name)}>
              {one.name}
            </Press>
          ))}
        </div>
      )}
      <Field label={texts.name} value={name} onValue={setName} autocomplete="name" longest={60} />
      <SecretField label={texts.password} value={password} onValue={setPassword} autocomplete="current-password" />
    </Form>
  )
}

/** With a code of the console it makes an owner; with one from an owner it sets one's own password. */
export function ByCode({ desk, first }: { readonly desk: PeopleDesk; readonly first: boolean }) {
  const texts = usePeopleWords()
  const [code, setCode] = useState('')
  const [name, setName] = useState('')
  const [password, setPassword] = useState('')
  const [title, why, act] = first
    ? ([texts.firstTitle, texts.firstHow, texts.becomeOwner] as const)
    : ([texts.haveCode, texts.codeHow, texts.setPassword] as const)
  return (
    <Form
      title={title}
      why={why}
      act={act}
      ready={code.trim() !== '' && password !== '' && (!first || name.trim() !== '')}
      onSend={() => desk.useCode(code, name.trim(), password)}
    >
      {first && <p>{texts.firstWhy}</p>}
      <Field label={texts.code} value={code} onValue={setCode} longest={20} />
      <Field label={texts.yourName} value={name} onValue={setName} autocomplete="name" longest={60} />
      <SecretField
        label={texts.newPassword}
        value={password}
        onValue={setPassword}
        autocomplete="new-password"
        hint={texts.passwordHint}
      />
    </Form>
  )
}

/** The password again: authority for some minutes. */
export function Elevate({ desk }: { readonly desk: PeopleDesk }) {
  const texts = usePeopleWords()
  const [password, setPassword] = useState('')
  return (
    <Form
      title={texts.elevateTitle}
      why={texts.elevateWhy}
      act={texts.elevate}
      ready={password !== ''}
      onSend={() => desk.elevate(password)}
    >
      <SecretField label={texts.password} value={password} onValue={setPassword} autocomplete="current-password" />
    </Form>
  )
}

export function ChangePassword({ desk, onDone }: { readonly desk: PeopleDesk; readonly onDone: () => void }) {
  const texts = usePeopleWords()
  const [password, setPassword] = useState('')
  const [next, setNext] = useState('')
  return (
    <Form
      title={texts.changePassword}
      act={texts.setPassword}
      ready={password !== '' && next !== ''}
      onSend={() => desk.changePassword(password, next).then(onDone)}
    >
      <SecretField label={texts.oldPassword} value={password} onValue={setPassword} autocomplete="current-password" />
      <SecretField
        label={texts.newPassword}
        value={next}
        onValue={setNext}
        autocomplete="new-password"
        hint={texts.passwordHint}
      />
    </Form>
  )
}
