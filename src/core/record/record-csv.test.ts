import { parse } from 'csv-parse/sync'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { aProcedure, SMALL } from '../../../tests/helpers/a-procedure.ts'
import { closedRun } from '../../../tests/helpers/closed-run.ts'
import { layOut } from '../procedure/course.ts'
import { csv } from './csv.ts'
import { makeRecord } from './make-record.ts'
import { CSV_COLUMNS, recordsCsv } from './record-csv.ts'
import { recordLines } from './record-lines.ts'
import { recordWordsEn } from './words.en.ts'

const EN = { words: recordWordsEn, language: 'en' }
/** Strict about quotes and the number of fields. */
const readBack = (text: string): readonly string[][] => parse(text, { record_delimiter: '\r\n' })

describe('comma-separated values', () => {
  // RFC 4180, section 2, rules 5 to 7, with its own examples.
  test.each([
    [['aaa', 'bbb', 'ccc'], 'aaa,bbb,ccc\r\n'],
    [['aaa', 'b\r\nbb', 'ccc'], 'aaa,"b\r\nbb",ccc\r\n'],
    [['aaa', 'b"bb', 'ccc'], 'aaa,"b""bb",ccc\r\n'],
    [['a,b', ''], '"a,b",\r\n']
  ])('%j is written as the standard says', (row, text) => {
    expect(csv([row])).toBe(text)
  })

  test('another program reads back whatever was written', () => {
    const words = fc.string({ unit: 'grapheme', maxLength: 12 })
    fc.assert(
      fc.property(fc.array(fc.tuple(words, words, words), { minLength: 1 }), (rows) => {
        // A row of one empty field cannot be told from an empty line; there are three.
        const plain = readBack(csv(rows)).map((row) => row.map((cell) => cell.replace(/^'/, '')))
        expect(plain).toEqual(rows.map((row) => row.map((cell) => cell.replace(/^'/, ''))))
      })
    )
  })

  test.each(['=1+1', '+1', '-1+1', '@SUM(A1)', '\t=1', '\r=1', ' =1', '＝1', '-cmd', '%0A=1', '|calc'])(
    'nothing runs in a spreadsheet: %j',
    (text) => {
      const [[cell] = []] = readBack(csv([[text]]))
      expect(cell).toBe(`'${text}`)
    }
  )

  test.each(['-5', '12.5', '-0.25'])('%s stays a number', (text) => {
    expect(csv([[text]])).toBe(`${text}\r\n`)
  })
})

describe('records as a table', () => {
  const course = layOut(aProcedure(SMALL))
  const record = makeRecord(course, closedRun('one'))
  if (!record) throw new Error('There is a record.')

  test('has a line for each entry, with every column', () => {
    const [head, ...rows] = readBack(recordsCsv([record, record], EN))
    expect(head).toEqual(CSV_COLUMNS)
    expect(rows).toHaveLength(2 * recordLines(record, EN).length)
    expect(new Set(rows.map((row) => row.length))).toEqual(new Set([CSV_COLUMNS.length]))
  })

  test('shows times by the clock of the shop and in UTC, and what was tried', () => {
    const rows: readonly Record<string, string>[] = parse(recordsCsv([record], EN), { columns: true })
    const attempt = rows.find((row) => row['kind'] === 'attempt to cut a wait short')
    expect(attempt).toMatchObject({ who: 'Ada', lane: 'Left', what: expect.stringContaining('were left') })
    for (const row of rows) {
      expect(row['time']).toMatch(/^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d-0[56]:00$/)
      expect(Date.parse(row['time'] ?? '')).toBe(Date.parse(row['time_utc'] ?? ''))
    }
  })
})
