import type { RunNamed, RecordsDesk } from '../../app/records-desk.ts'
import { Press } from '../parts/press.tsx'
import { useReader } from './use-reader.ts'
import { saveFile } from './save-file.ts'
import { useRecordsWords } from './use-records-words.ts'

export interface TakeAwayProps {
  readonly desk: RecordsDesk
  readonly rows: readonly RunNamed[]
  /** Of the server's export: which records. */
  readonly query: string
}

/** Files for an inspector: what the server has signed, or what this device has when the server is away. */
export function TakeAway({ desk, rows, query }: TakeAwayProps) {
  const texts = useRecordsWords()
  const reader = useReader()
  const take = async (form: 'csv' | 'json') => saveFile(await desk.take(rows, form, reader))
  return (
    <section class="take-away no-print">
      <h2>{texts.takeAway}</h2>
      <p>{texts.server}</p>
      <p class="links">
        <a href={`/api/export.json?${query}`} download>
          {texts.json}
        </a>
        <a
          href={`/api/export.csv?${[query, `language=${reader.language}`].filter((part) => part !== '').join('&')}`}
          download
        >
          {texts.table}
        </a>
        <a href={`/api/due.ics?language=${reader.language}`}>{texts.calendar}</a>
      </p>
      <p>{texts.device}</p>
      <div class="links">
        <Press onPress={() => void take('json')}>{texts.json}</Press>
        <Press onPress={() => void take('csv')}>{texts.table}</Press>
      </div>
    </section>
  )
}
