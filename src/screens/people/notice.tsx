import { useEffect, useRef } from 'preact/hooks'
import type { PeopleDesk, PeopleNotice } from '../../app/people-desk.ts'
import { serverSaid } from '../../app/server-said.ts'
import { useStore } from '../use-store.ts'
import { usePeopleWords } from './use-people-words.ts'

/** What became of the last thing that somebody did; codes and links are shown here, once. */
export function Notice({ desk }: { readonly desk: PeopleDesk }) {
  const notice = useStore(desk.$notice)
  const ref = useRef<HTMLDivElement>(null)
  // Whoever pressed something far below must see what became of it.
  useEffect(() => ref.current?.scrollIntoView({ block: 'nearest' }), [notice])
  return <div ref={ref}>{notice !== null && <Told notice={notice} />}</div>
}

function Told({ notice }: { readonly notice: PeopleNotice }) {
  const texts = usePeopleWords()
  switch (notice.kind) {
    case 'done':
      return (
        <p class="state-note" role="status">
          {texts.done}
        </p>
      )
    case 'failed':
      return (
        <p class="state-note" role="alert">
          {notice.failure.kind === 'unreachable' ? texts.away : serverSaid(notice.failure)}
        </p>
      )
    case 'code':
      return (
        <div class="state-note" role="status">
          <p class="people-code">{notice.code}</p>
          <p>{notice.for === 'password' ? texts.passwordCodeFor(notice.whose) : texts.pairingCodeHow}</p>
        </div>
      )
    case 'link':
      return (
        <div class="state-note" role="status">
          <p class="people-link">{addressOf(notice)}</p>
          <p>{texts.linkHow(notice.of.days)}</p>
        </div>
      )
  }
}

/** After `#`, which browsers send to nobody; a calendar program has to send it. */
function addressOf({ of, token }: Extract<PeopleNotice, { kind: 'link' }>): string {
  const { origin } = location
  return of.kind === 'inspector' ? `${origin}/#read=${token}` : `${origin}/api/due.ics?key=${token}`
}
