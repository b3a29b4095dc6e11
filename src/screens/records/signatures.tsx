import { shopDateTime } from '../../app/shop-time.ts'
import type { RunRecord } from '../../core/record/run-record.ts'
import { useReader } from './use-reader.ts'
import { useRecordsWords } from './use-records-words.ts'

/** Name, time and meaning of each signature (21 CFR 11.50(a)), and a line for one by hand on paper. */
export function Signatures({ record: { signatures, zone } }: { readonly record: RunRecord }) {
  const texts = useRecordsWords()
  const { words, language } = useReader()
  return (
    <section class="record-section signatures">
      <h2>{texts.sections.signatures}</h2>
      <ul>
        {signatures.map(({ id, by, at, meaning, entries, head, coversAll }) => (
          <li key={id}>
            <b>{by}</b>, {shopDateTime(at, zone, language)}, {words.signed(words.meaning(meaning), entries)}
            {!coversAll && <b> {words.review('changed-since')}</b>}
            <small>{head}</small>
          </li>
        ))}
      </ul>
      <p class="by-hand">{texts.byHand}</p>
    </section>
  )
}
