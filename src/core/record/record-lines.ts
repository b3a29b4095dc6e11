/** A record as lines in the order of time: one table for a spreadsheet, and for whoever reads it from top to bottom. */
import { unitName } from '../talk/call-words.ts'
import { textFor } from '../talk/quantities.ts'
import type { Text } from '../procedure/procedure.ts'
import type { Answer } from '../run/event.ts'
import { isAttempt } from './recorded-trouble.ts'
import type { CheckRow, Entry, RunRecord } from './run-record.ts'
import type { RecordWords } from './words.en.ts'

export interface RecordLine {
  readonly at: number
  readonly deviceAt: number | null
  readonly device: string
  readonly by: string
  readonly via: string
  readonly lane: string
  readonly kind: string
  readonly what: string
  /** When it was done and when it was planned, trusted epoch ms; null where that is not known. */
  readonly span: Span
  readonly plannedSpan: Span
  /** With its unit. */
  readonly planned: string
  readonly actual: string
  readonly result: string
  /** Limit or rule, and where it comes from. */
  readonly rule: string
  readonly source: string
  /** Of the event it was told by; empty where several say it together. */
  readonly entry: string
}

export interface Span {
  readonly from: number | null
  readonly to: number | null
}

export interface Reader {
  readonly words: RecordWords
  readonly language: string
}

export function answerWords(answer: Answer, words: RecordWords): string {
  if (answer.kind === 'yes-no') return words[answer.value]
  return answer.kind === 'reading' ? `${answer.value} ${unitName(answer.unit)}` : words.pieces(answer.value)
}

export function recordLines(record: RunRecord, reader: Reader): readonly RecordLine[] {
  const { words, language } = reader
  const { kinds } = words
  const text = (from: Text) => textFor(from, language)
  const says = new Map(record.steps.map(({ lane, step, say }) => [`${lane} ${step}`, text(say)]))
  const laneName = (lane: string | null) => {
    if (lane === null) return ''
    const side = record.sides.find(({ id }) => id === lane)
    return side ? text(side.name) : words.lane(lane)
  }
  const stepName = (lane: string | null, step: string | null) =>
    step === null ? '' : (says.get(`${lane ?? ''} ${step}`) ?? step)
  const told = (entry: Entry, kind: string, what: string, rest: Partial<RecordLine> = {}): RecordLine => ({
    ...EMPTY,
    at: entry.at,
    deviceAt: entry.deviceAt,
    device: entry.device,
    by: entry.by,
    via: words.via(entry.via),
    kind,
    what,
    entry: entry.id,
    ...rest
  })

  const lines: RecordLine[] = [
    ...record.crew.map((row) => told(row, kinds.crew, words.crew(row.kind, row.name, row.known))),
    ...record.steps.map((row) =>
      told(row, kinds.step, text(row.say), {
        lane: laneName(row.lane),
        planned: words.seconds(row.plannedSeconds),
        span: { from: row.from, to: row.at },
        plannedSpan: row.planned ?? NO_SPAN,
        actual: row.actualSeconds === null ? '' : words.seconds(row.actualSeconds),
        result: row.takenBack ? words.takenBack : '',
        // Its answer has a line of its own.
        entry: row.confirmation === null ? '' : row.id
      })
    ),
    ...record.waits.map((row): RecordLine => ({
      ...EMPTY,
      at: row.since,
      by: row.by,
      kind: kinds.wait,
      lane: laneName(row.lane),
      what: `${words.wait(row.kind)}: ${stepName(row.lane, row.step)}`,
      planned: range(
        words.seconds(row.minSeconds),
        row.maxSeconds === null ? null : words.seconds(row.maxSeconds),
        words
      ),
      actual: row.actualSeconds === null ? '' : words.seconds(row.actualSeconds),
      span: { from: row.since, to: row.endedAt },
      plannedSpan: row.planned ? { from: row.planned.to, to: row.planned.due } : NO_SPAN,
      result: words.waitResult(row.result),
      source: text(row.source)
    })),
    ...record.checks.flatMap((row) => [
      told(row, kindOfCheck(row, words), text(row.ask), {
        lane: laneName(row.lane),
        planned: limitsOf(row, words),
        actual: answerWords(row.answer, words),
        result: row.takenBack ? words.takenBack : row.good ? words.good : words.bad,
        rule: row.rule?.heldTo?.title ?? '',
        source: row.rule?.heldTo?.source ?? (row.limits ? text(row.limits.source) : '')
      }),
      ...row.amendments.map((change) =>
        told(change, kinds.amendment, text(row.ask), {
          lane: laneName(row.lane),
          planned: limitsOf(row, words),
          actual: words.amended(answerWords(change.was, words), answerWords(change.now, words), change.reason),
          result: change.good ? words.good : words.bad
        })
      )
    ]),
    ...record.corrections.map((row) =>
      told(
        row,
        kinds.correction,
        words.correction(
          row.action,
          words.because(row.because),
          row.old && answerWords(row.old, words),
          row.anew && answerWords(row.anew, words)
        ),
        { lane: laneName(row.lane) }
      )
    ),
    ...record.refused.map((row) =>
      told(
        row,
        isAttempt(row) ? kinds.attempt : kinds.refusal,
        isAttempt(row)
          ? words.attempt(words.minutesSeconds(row.remainingMs / 1000))
          : words.refused(row.command, words.reason(row.reason)),
        { lane: laneName(row.lane), actual: stepName(row.lane, row.step) }
      )
    ),
    ...record.takenBack.map((row) => told(row, kinds.takenBack, row.cancels)),
    ...record.interruptions.map((row): RecordLine => ({
      ...EMPTY,
      at: row.from,
      by: row.by,
      kind: kinds.interruption,
      what:
        row.to === null ? words.waitResult('running') : words.paused(words.minutesSeconds((row.to - row.from) / 1000))
    })),
    ...record.problems.map((row) => told(row, kinds.problem, row.text, { lane: laneName(row.lane) })),
    ...record.notes.map((row) =>
      told(row, kinds.note, words.note(row.field), {
        actual: row.was === null ? row.value : words.changedNote(row.value, row.was)
      })
    ),
    ...record.replaced.map((row) =>
      told(row, kinds.part, words.replaced(text(row.name), words.pieces(row.pieces)), { lane: laneName(row.lane) })
    ),
    ...record.said.map((row): RecordLine => ({
      ...EMPTY,
      at: row.at,
      device: row.device,
      by: row.by,
      kind: row.who === 'sidecall' ? kinds.said : kinds.heard,
      what: row.text ?? words.notUnderstood
    })),
    ...record.clockNotes
      .filter(isWorthALine)
      .map((row) =>
        told(
          row,
          kinds.clock,
          (row.kind === 'moved' ? words.clockMoved : words.caughtUp)(words.seconds(row.byMs / 1000)),
          {}
        )
      ),
    ...record.lost.map((row) => told(row, kinds.lost, words.lost(row.lost))),
    ...record.setAside.map((row) => told(row, kinds.setAside, words.setAside(row.type))),
    ...(record.endedAt === null
      ? []
      : [
          {
            ...EMPTY,
            at: record.endedAt,
            kind: kinds.end,
            what: record.endedBecause === null ? words.finished : words.ended(record.endedBecause)
          }
        ]),
    ...record.signatures.map((row) => told(row, kinds.signature, words.signed(words.meaning(row.meaning), row.entries)))
  ]
  return lines.sort((a, b) => a.at - b.at)
}

const NO_SPAN: Span = { from: null, to: null }
const EMPTY: Omit<RecordLine, 'at' | 'kind' | 'what'> = {
  deviceAt: null,
  device: '',
  by: '',
  via: '',
  lane: '',
  span: NO_SPAN,
  plannedSpan: NO_SPAN,
  planned: '',
  actual: '',
  result: '',
  rule: '',
  source: '',
  entry: ''
}

/** The way through the network shows as some milliseconds each time the server is asked; the evidence has every one. */
const isWorthALine = ({ kind, byMs }: RunRecord['clockNotes'][number]) => kind === 'moved' || Math.abs(byMs) >= 1000

function range(min: string | null, max: string | null, words: RecordWords): string {
  return [min === null ? '' : `${words.from} ${min}`, max === null ? '' : `${words.upTo} ${max}`]
    .filter((part) => part !== '')
    .join(', ')
}

function limitsOf({ limits, expected }: CheckRow, words: RecordWords): string {
  if (expected !== null) return words.pieces(expected)
  if (limits === null) return ''
  const amount = (value: number | null) => (value === null ? null : `${value} ${unitName(limits.unit)}`)
  return range(amount(limits.min), amount(limits.max), words)
}

function kindOfCheck({ answer }: CheckRow, { kinds }: RecordWords): string {
  return answer.kind === 'reading' ? kinds.reading : answer.kind === 'count' ? kinds.count : kinds.question
}
