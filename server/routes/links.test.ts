import { describe, expect, test } from 'vitest'
import { anApp, NOW } from '../../tests/helpers/an-app.ts'
import { closedRun, publishSmall } from '../../tests/helpers/closed-run.ts'
import { expectProblem } from '../../tests/helpers/expect-problem.ts'
import { aShopOf } from '../../tests/helpers/shop-callers.ts'
import { sending } from '../../tests/helpers/shop-people.ts'

const DAY = 24 * 3600_000

async function shopWithTwoMachines(name: 'inspector' | 'inspector of a machine') {
  const shop = await aShopOf(name)
  await publishSmall(shop.records)
  const elsewhere = closedRun('b', NOW, 'Corner shop', 'Freezer 2')
  await shop.boss('/api/events', sending('POST', { events: [...closedRun('a'), ...elsewhere] }))
  const json = async (path: string) => (await (await shop.as(path)).json()) as Record<string, unknown>
  return { ...shop, json }
}

describe('a link for an inspector', () => {
  test('shows every record of the shop, and changes nothing', async () => {
    const { json, as } = await shopWithTwoMachines('inspector')
    expect(await json('/api/records')).toMatchObject({ records: [{ runId: 'b' }, { runId: 'a' }] })
    expect((await as('/api/runs/b/events')).status).toBe(200)
    expect((await as('/api/export.json')).status).toBe(200)
    await expectProblem(await as('/api/events', sending('POST', { events: [] })), 403)
    await expectProblem(await as('/api/runs/a/signatures', sending('POST', {})), 401)
  })

  test('for one machine shows that machine alone, whatever is asked for', async () => {
    const { json, as } = await shopWithTwoMachines('inspector of a machine')
    for (const query of ['', '?machine=Freezer+2', '?machine=', '?machine=Freezer+1&machine=Freezer+2'])
      expect(await json(`/api/records${query}`)).toMatchObject({ records: [{ runId: 'a', machine: 'Freezer 1' }] })
    expect((await as('/api/runs/a/events')).status).toBe(200)
    await expectProblem(await as('/api/runs/b/events'), 404)
    await expectProblem(await as('/api/export.json?run=b'), 404)
    await expectProblem(await as('/api/export.csv?run=b&machine=Freezer+2'), 404)
    expect(await (await as('/api/export.json')).text()).not.toContain('Freezer 2')
    expect(await json('/api/trends?machine=Freezer+2')).toMatchObject({ runs: 1 })
  })

  test('is shown once, kept as a hash, and opened by nobody who lacks a letter of it', async () => {
    const shop = await aShopOf('nobody')
    const made = await shop.boss(
      '/api/links',
      sending('POST', { kind: 'inspector', machine: null, note: 'Visit', days: 2 })
    )
    const { token, link } = (await made.json()) as { token: string; link: { id: string; expiresAt: number } }
    expect(link.expiresAt).toBe(NOW + 2 * DAY)
    expect(await (await shop.boss('/api/links')).text()).not.toContain(token)
    await expectProblem(await shop.as('/api/links/open', sending('POST', { token: token.slice(0, -1) })), 422)
    expect(await (await shop.as('/api/links/open', sending('POST', { token }))).json()).toMatchObject({
      link: { kind: 'inspector', note: 'Visit', machine: null }
    })
    expect((await shop.as('/api/records')).status).toBe(200)
  })

  test.each([
    [{ kind: 'inspector', machine: null, note: ' ', days: 2 }],
    [{ kind: 'owner', machine: null, note: 'Visit', days: 2 }],
    [{ kind: 'inspector', machine: null, note: 'Visit', days: 0 }],
    [{ kind: 'inspector', machine: null, note: 'Visit', days: 1.5 }],
    [{ kind: 'inspector', machine: null, note: 'Visit', days: 367 }],
    [{ kind: 'inspector', machine: null, note: 'Visit\u0007', days: 2 }],
    [{ kind: 'inspector', note: 'Visit', days: 2 }]
  ])('is not made from %j', async (body) => {
    const shop = await aShopOf('nobody')
    await expectProblem(await shop.boss('/api/links', sending('POST', body)), 422)
    expect(await (await shop.boss('/api/links')).json()).toEqual({ links: [] })
  })
})

test('a calendar program comes with the key in the address, and sees what is due, no more', async () => {
  const shop = anApp()
  const ask = await shop.owner()
  const made = await ask('/api/links', sending('POST', { kind: 'calendar', machine: null, note: 'Office', days: 300 }))
  const { token, link } = (await made.json()) as { token: string; link: { id: string } }
  const calendar = (path: string) => shop.app.request(path)
  expect((await calendar(`/api/due.ics?key=${token}`)).headers.get('content-type')).toContain('text/calendar')
  await expectProblem(await calendar('/api/due.ics'), 401)
  await expectProblem(await calendar(`/api/due?key=${token}`), 401)
  await expectProblem(await calendar(`/api/records?key=${token}`), 401)
  await expectProblem(await shop.browser()('/api/links/open', sending('POST', { token })), 422)
  await ask(`/api/links/${link.id}`, { method: 'DELETE' })
  await expectProblem(await calendar(`/api/due.ics?key=${token}`), 401)
})
