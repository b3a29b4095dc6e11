import { shopDateTime } from '../../app/shop-time.ts'
import type { RunRecord } from '../../core/record/run-record.ts'
import { READER } from './reader.ts'
import { recordsScreenWordsEn as texts } from './words.en.ts'

/** Name, time and meaning of each signature (21 CFR 11.50(a)), and a line for one by hand on paper. */
export function Signatures({ record: { signatures, zone } }: { readonly record: RunRecord }) {
  return (
    <section class="record-section signatures">
      <h2>{texts.sections.signatures}</h2>
      <ul>
        {signatures.map(({ id, by, at, meaning, entries, head, coversAll }) => (
          <li key={id}>
            <b>{by}</b>, {shopDateTime(at, zone)}, {READER.words.signed(READER.words.meaning(meaning), entries)}
            {!coversAll && <b> {READER.words.review('changed-since')}</b>}
            <small>{head}</small>
          </li>
        ))}
      </ul>
      <p class="by-hand">{texts.byHand}</p>
    </section>
  )
}
