import type { ComponentChildren } from 'preact'
import type { PeopleDesk } from '../../app/people-desk.ts'
import { Press } from '../parts/press.tsx'
import { Notice } from '../people/notice.tsx'
import { Elevate, SignIn } from '../people/sign-in.tsx'
import { usePeople } from '../people/use-people.ts'
import { useSurroundings } from '../surroundings.ts'
import { useStore } from '../use-store.ts'
import { useWorkshopWords } from './use-workshop-words.ts'

/** Whoever publishes has just given a password; what is written meanwhile stays. */
export function WithAuthority({ children }: { readonly children: ComponentChildren }) {
  const people = usePeople()
  return people && <Known people={people}>{children}</Known>
}

function Known({ people, children }: { readonly people: PeopleDesk; readonly children: ComponentChildren }) {
  const { app } = useSurroundings()
  const words = useWorkshopWords()
  const me = useStore(people.$me)
  const elevated = useStore(people.$elevated)
  if (me === null) return <p role="alert">{words.away}</p>
  if (me.shop === 'unowned')
    return (
      <>
        <p>{words.publish.noOwner}</p>
        <Press onPress={() => void app.showPeople()}>{words.publish.people}</Press>
      </>
    )
  if (me.person && elevated)
    return (
      <>
        <p>{words.publish.as(me.person.name)}</p>
        {children}
      </>
    )
  return (
    <>
      <Notice desk={people} />
      {me.person ? <Elevate desk={people} /> : <SignIn desk={people} />}
    </>
  )
}
