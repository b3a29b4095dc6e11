import { parse } from 'csv-parse/sync'
import { beforeEach, describe, expect, test } from 'vitest'
import { anApp, type AnApp } from '../../tests/helpers/an-app.ts'
import { closedRun, publishSmall } from '../../tests/helpers/closed-run.ts'
import { expectProblem } from '../../tests/helpers/expect-problem.ts'

const runIds = (text: string): readonly string[] => {
  const rows: readonly Record<string, string>[] = parse(text, { columns: true, bom: true, record_delimiter: '\r\n' })
  return [...new Set(rows.map((row) => row['run'] ?? ''))]
}

let shop: AnApp
const ask = (path: string) => shop.app.request(`/api/${path}`)

beforeEach(async () => {
  shop = anApp()
  await publishSmall(shop.records)
  // Five minutes before midnight in Chicago, and one hour later.
  const late = Date.parse('2026-10-31T23:55:00-05:00')
  await shop.send({ events: closedRun('b', late + 3_600_000, 'Corner shop', 'Freezer 2') })
  await shop.send({ events: closedRun('a', late) })
  await shop.send({ events: closedRun('c', late, 'Harbour shop') })
})

describe('exports for spreadsheets', () => {
  test.each([
    ['export.csv', ['a', 'c', 'b']],
    ['export.csv?run=b', ['b']],
    ['export.csv?machine=Freezer+2', ['b']],
    ['export.csv?site=Harbour+shop', ['c']],
    ['export.csv?from=2026-11-01', ['b']],
    ['export.csv?to=2026-10-31', ['a', 'c']],
    ['export.csv?from=2026-10-31&to=2026-11-01&machine=Freezer+1', ['a', 'c']]
  ])('%s has the runs that were asked for, by the days of the shop', async (path, runs) => {
    const answer = await ask(path)
    expect(answer.headers.get('content-type')).toMatch(/^text\/csv; charset=utf-8/)
    expect(runIds(await answer.text())).toEqual(runs)
  })

  test('have the words of the language that is asked for under the same heads', async () => {
    const [english, spanish] = await Promise.all(
      ['export.csv?run=a', 'export.csv?run=a&language=es'].map(async (path) => (await ask(path)).text())
    )
    expect(spanish?.split('\n')[0]).toBe(english?.split('\n')[0])
    expect(english).toContain(',step,')
    expect(spanish).toContain(',paso,')
    expect(spanish).not.toContain(',step,')
  })

  test('are files with a name that says what is in them', async () => {
    const answer = await ask('export.csv?machine=Freezer+2&from=2026-11-01')
    expect(answer.headers.get('content-disposition')).toBe(
      "attachment; filename*=UTF-8''sidecall-Freezer-2-2026-11-01.csv"
    )
    await answer.text()
  })
})

describe.each(['export.csv', 'export.json'])('%s', (path) => {
  test('of nothing is not found', async () => {
    await expectProblem(await ask(`${path}?run=nobody`), 404)
    await expectProblem(await ask(`${path}?from=2030-01-01`), 404)
  })

  test.each(['from=yesterday', 'to=2026-13-01', 'from=2026-1-1'])('of %s says what a day looks like', async (days) => {
    await expectProblem(await ask(`${path}?${days}`), 422)
  })

  test('can only be read', async () => {
    await expectProblem(await shop.app.request(`/api/${path}`, { method: 'POST' }), 405)
  })
})
