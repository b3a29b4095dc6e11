import './people.css'
import { useState } from 'preact/hooks'
import type { PeopleDesk } from '../../app/people-desk.ts'
import type { Me } from '../../app/people-desk.ts'
import { Press } from '../parts/press.tsx'
import { useSurroundings } from '../surroundings.ts'
import { useStore } from '../use-store.ts'
import { DeedLog } from './deed-log.tsx'
import { DeviceList } from './device-list.tsx'
import { LinkList } from './link-list.tsx'
import { Notice } from './notice.tsx'
import { Pair } from './pair.tsx'
import { PeopleList } from './people-list.tsx'
import { ByCode, ChangePassword, Elevate, SignIn } from './sign-in.tsx'
import { usePeopleWords } from './use-people-words.ts'

/** Signing in, and whoever may come in. */
export function People({ desk }: { readonly desk: PeopleDesk }) {
  const texts = usePeopleWords()
  const { app, words } = useSurroundings()
  const me = useStore(desk.$me)
  return (
    <main class="page people">
      <header class="page-head">
        <Press onPress={() => void app.backToChoice()}>{words.back}</Press>
        <h1>{texts.title}</h1>
      </header>
      <Notice desk={desk} />
      {me === null ? <Press onPress={() => void desk.look()}>{texts.again}</Press> : <Known desk={desk} me={me} />}
    </main>
  )
}

function Known({ desk, me }: { readonly desk: PeopleDesk; readonly me: Me }) {
  const elevated = useStore(desk.$elevated)
  if (me.shop === 'unowned') return <ByCode desk={desk} first />
  if (!me.person)
    return (
      <>
        {!me.device && <Pair desk={desk} needsCode />}
        <SignIn desk={desk} />
        <ByCode desk={desk} first={false} />
      </>
    )
  return (
    <>
      <SignedIn desk={desk} person={me.person} />
      {elevated && !me.device && <Pair desk={desk} needsCode={false} />}
      <Managed desk={desk} me={me} role={me.person.role} mayChange={elevated} />
    </>
  )
}

function SignedIn({ desk, person }: { readonly desk: PeopleDesk; readonly person: NonNullable<Me['person']> }) {
  const texts = usePeopleWords()
  const elevated = useStore(desk.$elevated)
  const [changing, setChanging] = useState(false)
  return (
    <section class="people-part">
      <h2>{texts.signedInAs(person.name, person.role)}</h2>
      {elevated && <p>{texts.elevated}</p>}
      <div class="people-choices">
        <Press onPress={() => void desk.signOut()}>{texts.signOut}</Press>
        <Press onPress={() => void desk.signOutEverywhere()}>{texts.signOutEverywhere}</Press>
        <Press pressed={changing} onPress={() => setChanging(!changing)}>
          {texts.changePassword}
        </Press>
      </div>
      {changing && <ChangePassword desk={desk} onDone={() => setChanging(false)} />}
      {!elevated && <Elevate desk={desk} />}
    </section>
  )
}

interface ManagedProps {
  readonly desk: PeopleDesk
  readonly me: Me
  readonly role: NonNullable<Me['person']>['role']
  readonly mayChange: boolean
}

function Managed({ desk, me, role, mayChange }: ManagedProps) {
  const lists = useStore(desk.$lists)
  if (lists === null) return null
  return (
    <>
      <PeopleList desk={desk} people={lists.people} role={role} mayChange={mayChange} />
      <DeviceList desk={desk} devices={lists.devices} own={me.device?.id ?? null} mayChange={mayChange} />
      <LinkList desk={desk} links={lists.links} mayChange={mayChange} />
      {role === 'owner' && <DeedLog desk={desk} />}
    </>
  )
}
