import { FIELD_SET, type RecordField } from '../../core/record/field-set.ts'
import type { RunRecord } from '../../core/record/run-record.ts'
import { useRecordsWords } from './use-records-words.ts'
import type { RecordsScreenWords } from './words.en.ts'

/** Every field that a record has to have, whether this one has it, and which rule or pattern asks for it. */
export function FieldSources({ record }: { readonly record: RunRecord }) {
  const texts = useRecordsWords()
  return (
    <section class="record-section field-sources">
      <h2>{texts.sections.fields}</h2>
      <table>
        <tbody>
          {FIELD_SET.map((field) => (
            <tr key={field.title}>
              <td>{field.title}</td>
              <td>{valueOf(field, record, texts)}</td>
              <td>
                <small>
                  {field.source} ({field.status})
                </small>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  )
}

function valueOf({ from }: RecordField, record: RunRecord, texts: RecordsScreenWords): string {
  if ('part' in from) return texts.inRecord
  return record.notes.findLast(({ field }) => field === from.note)?.value ?? texts.notEntered
}
