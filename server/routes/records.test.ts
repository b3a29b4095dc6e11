import { expect, test } from 'vitest'
import { anApp, NOW } from '../../tests/helpers/an-app.ts'
import { closedRun, publishSmall } from '../../tests/helpers/closed-run.ts'
import { sending } from '../../tests/helpers/shop-people.ts'
import type { RecordListing } from '../../src/ports/records.ts'

async function shop() {
  const { owner, records } = anApp()
  const ask = await owner()
  await publishSmall(records)
  const list = async (query = '') =>
    (await (await ask(`/api/records${query}`)).json()) as { records: RecordListing[]; more: number }
  const sign = (run: string, entries: number, meaning = 'review') =>
    ask(`/api/runs/${run}/signatures`, sending('POST', { meaning, entries }))
  const send = (body: unknown) => ask('/api/events', sending('POST', body))
  return { send, list, sign }
}

test('the last begun comes first, with what it was, and how it ended', async () => {
  const { send, list } = await shop()
  const [done, begun] = [closedRun('a'), closedRun('b', NOW + 1000)]
  const abandoned = closedRun('c', NOW + 2000).slice(0, 4)
  const { id: _, ...envelope } = done.at(-1) ?? {}
  const at = abandoned[3]?.at
  const last = { ...envelope, id: 'end', runId: 'c', at, type: 'run-abandoned', reason: 'No water.' }
  await send({ events: [...done, ...begun.slice(0, 5), ...abandoned, last] })
  const { records, more } = await list()
  expect(more).toBe(0)
  expect(records.map(({ runId, status, endedAt }) => [runId, status, endedAt])).toEqual([
    ['c', 'ended-early', at],
    ['b', 'open', null],
    ['a', 'complete', done.at(-1)?.at]
  ])
  expect(records[2]).toMatchObject({
    title: { en: 'Test' },
    operator: 'Ada',
    machine: 'Freezer 1',
    entries: done.length
  })
})

test('shows who has still to sign, also after something came later', async () => {
  const { send, list, sign } = await shop()
  const events = closedRun('a')
  await send({ events })
  const review = async () => (await list()).records[0]?.review
  expect(await review()).toBe('unsigned')
  await sign('a', events.length, 'responsibility')
  expect(await review()).toBe('unsigned')
  await sign('a', events.length + 1)
  expect(await review()).toBe('signed')
  await send({ events: [{ ...events.at(-1), id: 'note', type: 'noted', field: 'remark', value: 'Late.' }] })
  expect(await review()).toBe('changed-since')
})

test('of a span of days, as the shop counts them', async () => {
  const { send, list } = await shop()
  await send({
    events: [
      ...closedRun('a', Date.parse('2026-10-31T23:55:00-05:00')),
      ...closedRun('b', Date.parse('2026-11-01T00:05:00-05:00'))
    ]
  })
  expect((await list('?from=2026-11-01')).records.map(({ runId }) => runId)).toEqual(['b'])
})
