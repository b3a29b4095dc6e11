import { useEffect, useState } from 'preact/hooks'
import { useStore } from '../use-store.ts'
import type { RecordsDesk } from '../../app/records-desk.ts'
import { useSurroundings } from '../surroundings.ts'
import { DueList } from './due-list.tsx'
import { UnsentNote } from './standing-notes.tsx'
import { recordsScreenWordsEn as texts } from './words.en.ts'
import './records.css'

/** On the first screen: what must not wait, and nothing when all is in order. */
export function Today() {
  const { app } = useSurroundings()
  const [desk, setDesk] = useState<RecordsDesk | null>(null)
  useEffect(() => {
    let isHere = true
    void app.records().then(async (opened) => {
      await opened.look()
      if (isHere) setDesk(opened)
    })
    return () => {
      isHere = false
    }
  }, [])
  return desk && <Urgent desk={desk} />
}

function Urgent({ desk }: { readonly desk: RecordsDesk }) {
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
      {due !== null && <DueList due={due} urgentOnly />}
    </>
  )
}
