/** The page's link to the records against the real server's app, over real requests. */
import { http } from 'msw'
import { setupServer } from 'msw/node'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { recordsOverHttp } from '../../src/devices/records-http.ts'
import type { Schedule } from '../../src/core/due/schedule.ts'
import { anApp, type AnApp } from '../helpers/an-app.ts'
import type { Ask } from '../helpers/cookie-jar.ts'
import { sending } from '../helpers/shop-people.ts'
import { closedRun, publishSmall } from '../helpers/closed-run.ts'

const base = 'http://shop.test'
const link = recordsOverHttp({ base })
const CITED = { source: 'The manual', edition: 'not dated', status: 'memory', otherwise: 'overdue' } as const
const schedule: Schedule = {
  duties: [
    { kind: 'every', procedure: 'test-machine', everySeconds: 3600, ...CITED },
    { kind: 'day-of-use', procedure: 'never', by: '06:00', opens: ['test-machine'], ...CITED },
    { kind: 'every', procedure: 'never', everySeconds: 3600, ...CITED }
  ]
}
let shop: AnApp
let browser: Ask

const network = setupServer(http.all(`${base}/*`, ({ request }) => browser(request)))
beforeAll(() => network.listen({ onUnhandledRequest: 'error' }))
afterAll(() => network.close())
beforeEach(async () => {
  shop = anApp({ schedule })
  browser = await shop.owner()
  await publishSmall(shop.records)
  await browser('/api/events', sending('POST', { events: [...closedRun('a'), ...closedRun('b').slice(0, 5)] }))
})

test('records are listed, and one is signed by what was looked at', async () => {
  const listed = await link.list()
  if (listed.kind === 'failed') throw new Error(JSON.stringify(listed.failure))
  expect(listed.value.records.map(({ runId, status, review }) => [runId, status, review])).toEqual([
    ['b', 'open', 'unsigned'],
    ['a', 'complete', 'unsigned']
  ])
  const signing = { meaning: 'review', entries: closedRun('a').length } as const
  expect(await link.sign('a', signing)).toMatchObject({ kind: 'answered' })
  expect(await link.sign('a', signing)).toMatchObject({ kind: 'failed', failure: { kind: 'rejected', status: 409 } })
  expect(await link.list()).toMatchObject({ value: { records: [{ runId: 'b' }, { runId: 'a', review: 'signed' }] } })
})

test('what is due comes in every state', async () => {
  expect(await link.due('Europe/Berlin')).toMatchObject({
    kind: 'answered',
    value: {
      duties: [{ state: { kind: 'under-way' } }, { state: { kind: 'in-order' } }, { state: { kind: 'never-done' } }]
    }
  })
  expect(await link.due('No/Where')).toMatchObject({ kind: 'failed', failure: { kind: 'rejected', status: 422 } })
})

test('runs that are over are looked back over, of one machine or of all', async () => {
  const looked = await link.trends('')
  expect(looked).toMatchObject({ kind: 'answered', value: { runs: 1, attempts: [{ value: 1, bad: true }] } })
  expect(looked.kind === 'answered' && looked.value.steps.length).toBeGreaterThan(0)
  expect(await link.trends('Freezer 1')).toEqual(looked)
  expect(await link.trends('Another')).toMatchObject({ value: { runs: 0 } })
})
