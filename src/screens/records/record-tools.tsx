import { useState } from 'preact/hooks'
import type { Notice, RecordsDesk, ShownRecord } from '../../app/records-desk.ts'
import { serverSaid } from '../../app/server-said.ts'
import { Press } from '../parts/press.tsx'
import { usePeople } from '../people/use-people.ts'
import { AmendForm } from './amend-form.tsx'
import { NoteForm } from './note-form.tsx'
import { SignForm } from './sign-form.tsx'
import { TakeAway } from './take-away.tsx'
import { useRecordsWords } from './use-records-words.ts'
import type { RecordsScreenWords } from './words.en.ts'

export interface RecordToolsProps {
  readonly desk: RecordsDesk
  readonly shown: readonly ShownRecord[]
  readonly notice: Notice | null
}

type Form = 'none' | 'sign' | 'note' | 'amend' | 'take'

/** What can be done with the records on the screen. One record is signed at a time: by somebody who has read it. */
export function RecordTools({ desk, shown, notice }: RecordToolsProps) {
  const texts = useRecordsWords()
  const [form, setForm] = useState<Form>('none')
  const mayAdd = useMayAdd()
  const [only] = shown.length === 1 ? shown : []
  const rows = shown.map(({ record }) => ({ runId: record.run, procedureHash: record.procedure.version }))
  return (
    <section class="record-tools no-print">
      <div class="links">
        <Press onPress={() => window.print()}>{texts.print}</Press>
        <Press pressed={form === 'take'} onPress={() => setForm('take')}>
          {texts.takeAway}
        </Press>
        {only && mayAdd && only.record.status !== 'open' && (
          <Press pressed={form === 'sign'} onPress={() => setForm('sign')}>
            {texts.sign}
          </Press>
        )}
        {only && mayAdd && (
          <Press pressed={form === 'note'} onPress={() => setForm('note')}>
            {texts.note}
          </Press>
        )}
        {only && mayAdd && only.record.checks.length > 0 && (
          <Press pressed={form === 'amend'} onPress={() => setForm('amend')}>
            {texts.amend}
          </Press>
        )}
      </div>
      {notice !== null && (
        <p class="state-note" role="status">
          {noticeText(notice, texts)}
        </p>
      )}
      {only && form === 'sign' && <SignForm desk={desk} record={only.record} onDone={() => setForm('none')} />}
      {only && form === 'note' && <NoteForm desk={desk} record={only.record} onDone={() => setForm('none')} />}
      {only && form === 'amend' && <AmendForm desk={desk} record={only.record} onDone={() => setForm('none')} />}
      {form === 'take' && <TakeAway desk={desk} rows={rows} query={queryOf(rows.map(({ runId }) => runId))} />}
    </section>
  )
}

/** Whoever came with a link for reading only reads. */
function useMayAdd(): boolean {
  const people = usePeople()
  const me = people?.$me.get()
  return !me?.link || me.device !== null || me.person !== null
}

/** Several records are taken from the list, where they were narrowed down. */
function queryOf(runs: readonly string[]): string {
  return runs.length === 1 ? new URLSearchParams({ run: runs[0] ?? '' }).toString() : ''
}

function noticeText(notice: Notice, texts: RecordsScreenWords): string {
  const { notices } = texts
  switch (notice.kind) {
    case 'signed':
      return notices.signed
    case 'kept':
      return notices.kept
    case 'unsent':
      return notices.unsent
    case 'not-kept':
      return notices.notKept(notice.detail)
    case 'not-signed':
      return notices.notSigned(notice.failure.kind === 'unreachable' ? texts.away : serverSaid(notice.failure))
  }
}
