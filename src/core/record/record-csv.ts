/** Records as one table for a spreadsheet: a line for each entry. */
import { shopStamp } from '../time/shop-stamp.ts'
import { csv } from './csv.ts'
import { textFor } from '../talk/quantities.ts'
import { recordLines, type Reader } from './record-lines.ts'
import type { RunRecord } from './run-record.ts'

/**
 * Times stand twice: by the clock of the shop, and in UTC as both the server and the device saw them. When a step or a
 * wait began and ended, and was planned to, is by the clock of the shop.
 */
export const CSV_COLUMNS = [
  ...['site', 'machine', 'procedure', 'version', 'run', 'status', 'review'],
  ...['time', 'time_utc', 'device_time_utc', 'device', 'who', 'how'],
  ...['lane', 'kind', 'what', 'asked', 'actual', 'result', 'rule', 'source', 'entry'],
  ...['began', 'ended', 'planned_begin', 'planned_end']
] as const

export function recordsCsv(records: readonly RunRecord[], reader: Reader): string {
  return csv([CSV_COLUMNS, ...records.flatMap((record) => linesOf(record, reader))])
}

function linesOf(record: RunRecord, reader: Reader): readonly (readonly string[])[] {
  const { site, machine, procedure, run, status, review, zone } = record
  const { words, language } = reader
  const head = [site, machine, textFor(procedure.title, language), procedure.version, run]
  return recordLines(record, reader).map((line) => [
    ...[...head, words.status(status), words.review(review)],
    ...[
      shopStamp(line.at, zone),
      shopStamp(line.at, 'UTC'),
      line.deviceAt === null ? '' : shopStamp(line.deviceAt, 'UTC')
    ],
    ...[line.device, line.by, line.via, line.lane, line.kind, line.what, line.planned, line.actual],
    ...[line.result, line.rule, line.source, line.entry],
    ...[line.span.from, line.span.to, line.plannedSpan.from, line.plannedSpan.to].map((at) =>
      at === null ? '' : shopStamp(at, zone)
    )
  ])
}
