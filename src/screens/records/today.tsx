import { useEffect } from 'preact/hooks'
import { useStore } from '../use-store.ts'
import type { RecordsDesk } from '../../app/records-desk.ts'
import { DueList } from './due-list.tsx'
import { UnsentNote } from './standing-notes.tsx'
import { useDesk } from './use-desk.ts'
import { useRecordsWords } from './use-records-words.ts'
import './records.css'

export interface TodayProps {
  /** Ids of the procedures that stand on the screen, each with its own mark. */
  readonly offered: readonly string[]
}

/** On the first screen: what must not wait and stands nowhere else, and nothing when all is in order. */
export function Today({ offered }: TodayProps) {
  const desk = useDesk()
  useEffect(() => void desk?.look(), [desk])
  return desk && <Urgent desk={desk} offered={offered} />
}

function Urgent({ desk, offered }: TodayProps & { readonly desk: RecordsDesk }) {
  const texts = useRecordsWords()
  const due = useStore(desk.$due)
  const standing = useStore(desk.$standing)
  return (
    <>
      {standing.kind === 'known' && standing.unsent?.age === 'old' && <UnsentNote unsent={standing.unsent} />}
      {standing.kind === 'known' && standing.refused.length > 0 && (
        <p class="state-note" role="alert">
          {texts.refusedCount(standing.refused.length)}
        </p>
      )}
      {due !== null && (
        <DueList
          due={{ ...due, duties: due.duties.filter(({ procedure }) => !offered.includes(procedure)) }}
          urgentOnly
        />
      )}
    </>
  )
}
