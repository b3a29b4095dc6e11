import { shopTimeExact } from '../../app/shop-time.ts'
import type { RecordLine } from '../../core/record/record-lines.ts'
import { useReader } from './use-reader.ts'
import { useRecordsWords } from './use-records-words.ts'

export interface SaidLinesProps {
  readonly lines: readonly RecordLine[]
  readonly zone: string
}

/** Closed at first, since it is long; paper has what is open. */
export function SaidLines({ lines, zone }: SaidLinesProps) {
  const texts = useRecordsWords()
  const { words, language } = useReader()
  if (lines.length === 0) return null
  return (
    <details class="record-section said-lines">
      <summary>
        <h2>{texts.sections.said}</h2>
        <span class="no-print">{texts.saidHint(lines.length)}</span>
      </summary>
      <table>
        <thead>
          <tr>
            <th>{texts.columns.time}</th>
            <th>{texts.columns.who}</th>
            <th>{texts.columns.said}</th>
          </tr>
        </thead>
        <tbody>
          {lines.map(({ at, kind, by, what }, index) => (
            <tr key={`${at} ${index}`}>
              <td class="when">{shopTimeExact(at, zone, language)}</td>
              <td>{kind === words.kinds.said ? texts.saidTo(by) : by}</td>
              <td>{what}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </details>
  )
}
