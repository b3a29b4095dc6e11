import './records.css'
import { useStore } from '../use-store.ts'
import type { RecordsDesk } from '../../app/records-desk.ts'
import { Press } from '../parts/press.tsx'
import { useSurroundings } from '../surroundings.ts'
import { RecordForm } from './record-form.tsx'
import { RecordList } from './record-list.tsx'
import { RecordTools } from './record-tools.tsx'
import { TrendsView } from './trends-view.tsx'
import { useRecordsWords } from './use-records-words.ts'

/** The list of records, or some of them to be read, signed, printed and taken away. */
export function Records({ desk }: { readonly desk: RecordsDesk }) {
  const texts = useRecordsWords()
  const { app, words } = useSurroundings()
  const shown = useStore(desk.$desk)
  return (
    <main class="page records">
      <header class="page-head no-print">
        {shown.kind === 'records' || shown.kind === 'trends' ? (
          <Press onPress={() => void desk.list()}>{texts.back}</Press>
        ) : (
          <Press onPress={() => void app.backToChoice()}>{words.back}</Press>
        )}
        {shown.kind !== 'records' && <h1>{texts.title}</h1>}
      </header>
      {shown.kind === 'looking' && (
        <p class="state-note" role="status">
          {texts.looking}
        </p>
      )}
      {shown.kind === 'list' && <RecordList desk={desk} list={shown} />}
      {shown.kind === 'trends' && <TrendsView looked={shown.looked} />}
      {shown.kind === 'records' && (
        <>
          <RecordTools desk={desk} shown={shown.shown} notice={shown.notice} />
          {shown.shown.map((one) => (
            <RecordForm key={one.record.run} shown={one} />
          ))}
        </>
      )}
    </main>
  )
}
