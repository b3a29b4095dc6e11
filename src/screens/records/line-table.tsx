import { shopDateTime, shopTimeExact } from '../../app/shop-time.ts'
import type { RecordLine, Span } from '../../core/record/record-lines.ts'
import { useReader } from './use-reader.ts'
import { useRecordsWords } from './use-records-words.ts'

export interface LineTableProps {
  readonly title: string
  readonly lines: readonly RecordLine[]
  readonly zone: string
}

/** Lines of a record with what was asked and what was found. Results are words, never colour alone. */
export function LineTable({ title, lines, zone }: LineTableProps) {
  const texts = useRecordsWords()
  const { columns } = texts
  const { words, language } = useReader()
  return (
    <section class="record-section">
      <h2>{title}</h2>
      {lines.length === 0 ? (
        <p>{texts.nothing}</p>
      ) : (
        <table>
          <thead>
            <tr>
              <th>{columns.time}</th>
              <th>{columns.lane}</th>
              <th>{columns.what}</th>
              <th>{columns.asked}</th>
              <th>{columns.actual}</th>
              <th>{columns.result}</th>
              <th>{columns.who}</th>
            </tr>
          </thead>
          <tbody>
            {lines.map((line, index) => (
              <tr key={`${index} ${line.entry}`} class={line.result === words.bad ? 'bad' : ''}>
                <td class="when">
                  {shopDateTime(line.at, zone, language)}
                  <Spans line={line} zone={zone} />
                </td>
                <td>{line.lane}</td>
                <td>
                  {line.what}
                  {line.source !== '' && (
                    <small>{[line.rule, line.source].filter((part) => part !== '').join(': ')}</small>
                  )}
                </td>
                <td>{line.planned}</td>
                <td>{line.actual}</td>
                <td>{line.result}</td>
                <td>
                  {line.by}
                  {line.via !== '' && <small>{line.via}</small>}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </section>
  )
}

/** From when to when, and when it was planned. */
function Spans({ line: { span, plannedSpan }, zone }: { readonly line: RecordLine; readonly zone: string }) {
  const texts = useRecordsWords()
  const { language } = useReader()
  const times = ({ from, to }: Span) =>
    from === null || to === null
      ? null
      : `${shopTimeExact(from, zone, language)} – ${shopTimeExact(to, zone, language)}`
  const [done, planned] = [times(span), times(plannedSpan)]
  return (
    <>
      {done !== null && <small>{done}</small>}
      {planned !== null && <small>{texts.plannedAt(planned)}</small>}
    </>
  )
}
