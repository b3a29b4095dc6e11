import type { ShownRecord } from '../../app/records-desk.ts'
import { shopDateTime } from '../../app/shop-time.ts'
import { recordLines, type Reader, type RecordLine } from '../../core/record/record-lines.ts'
import { textFor } from '../../core/talk/quantities.ts'
import type { RunRecord } from '../../core/record/run-record.ts'
import type { RecordWords } from '../../core/record/words.en.ts'
import { FieldSources } from './field-sources.tsx'
import { LineTable } from './line-table.tsx'
import { SaidLines } from './said-lines.tsx'
import { useReader } from './use-reader.ts'
import { Signatures } from './signatures.tsx'
import { useRecordsWords } from './use-records-words.ts'
import type { RecordsScreenWords } from './words.en.ts'

/** Which lines stand in which part of the form. */
function sectionsIn({ sections }: RecordsScreenWords, { kinds }: RecordWords) {
  return [
    [sections.checks, [kinds.reading, kinds.count, kinds.question, kinds.amendment]],
    [sections.waits, [kinds.wait]],
    [
      sections.trouble,
      [kinds.correction, kinds.attempt, kinds.problem, kinds.takenBack, kinds.refusal, kinds.lost, kinds.setAside]
    ],
    [sections.notes, [kinds.note, kinds.part]],
    [sections.people, [kinds.crew, kinds.interruption, kinds.clock, kinds.end]],
    [sections.steps, [kinds.step]]
  ] as const
}

/** One record as a form: the same on the screen and on paper. */
export function RecordForm({ shown: { record, unsent } }: { readonly shown: ShownRecord }) {
  const texts = useRecordsWords()
  const reader = useReader()
  const lines = recordLines(record, reader)
  const { procedure, zone } = record
  return (
    <article class="record-form">
      <h1>{textFor(procedure.title, reader.language)}</h1>
      {procedure.isExample && <p class="record-warning">{texts.example}</p>}
      {unsent === null && <p class="record-warning">{texts.serverAway}</p>}
      {unsent !== null && unsent > 0 && <p class="record-warning">{texts.unsentHere(unsent)}</p>}
      <dl class="record-head">
        {headOf(record, texts, reader).map(([name, value]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{value}</dd>
          </div>
        ))}
      </dl>
      {sectionsIn(texts, reader.words).map(([title, wanted]) => (
        <LineTable key={title} title={title} lines={linesOf(lines, wanted)} zone={zone} />
      ))}
      <SaidLines lines={linesOf(lines, [reader.words.kinds.said, reader.words.kinds.heard])} zone={zone} />
      <Clocks record={record} />
      <Signatures record={record} />
      <FieldSources record={record} />
      <p class="record-foot">{texts.labelFirst}</p>
    </article>
  )
}

function linesOf(lines: readonly RecordLine[], kindsWanted: readonly string[]): readonly RecordLine[] {
  return lines.filter(({ kind }) => kindsWanted.includes(kind))
}

function headOf(
  record: RunRecord,
  texts: RecordsScreenWords,
  { words, language }: Reader
): readonly (readonly [string, string])[] {
  const { head } = texts
  const time = (at: number | null) => (at === null ? texts.notEnded : shopDateTime(at, record.zone, language))
  return [
    [head.site, record.site],
    [head.machine, record.machine],
    [head.sides, record.sides.map(({ name }) => textFor(name, language)).join(', ')],
    [head.operators, record.operators.join(', ')],
    [head.begun, time(record.startedAt)],
    [head.ended, time(record.endedAt)],
    [head.zone, record.zone],
    [head.status, words.status(record.status)],
    [head.review, words.review(record.review)],
    [
      head.solutions,
      record.solutions.map(({ name, amount }) => `${textFor(name, language)}: ${textFor(amount, language)}`).join('; ')
    ],
    [head.entries, String(record.entries)],
    [head.run, record.run],
    [head.version, record.procedure.version]
  ]
}

/** Of each device whose own clock was off, also when nobody moved it. */
function Clocks({ record: { clocks } }: { readonly record: RunRecord }) {
  const texts = useRecordsWords()
  const { words } = useReader()
  const off = clocks.filter(({ leastSkewMs, mostSkewMs }) => Math.max(-leastSkewMs, mostSkewMs) >= SHOWN_FROM_MS)
  const told = (ms: number) => `${ms < 0 ? '−' : '+'}${words.minutesSeconds(Math.abs(ms) / 1000)}`
  return (
    <>
      {off.map(({ device, leastSkewMs, mostSkewMs }) => (
        <p key={device} class="record-warning">
          {texts.skew(device, told(leastSkewMs), told(mostSkewMs))}
        </p>
      ))}
    </>
  )
}

const SHOWN_FROM_MS = 60_000
