import { describe, expect, test } from 'vitest'
import { anApp, NOW } from '../../tests/helpers/an-app.ts'
import { OWNER, sending } from '../../tests/helpers/shop-people.ts'
import { closedRun, publishSmall } from '../../tests/helpers/closed-run.ts'
import type { RunEvent } from '../../src/core/run/event.ts'

async function signing(events: readonly RunEvent[] = closedRun('run-1')) {
  const shop = anApp()
  await shop.send({ events })
  const ask = await shop.owner()
  const sign = (body: unknown, run = 'run-1') => ask(`/api/runs/${run}/signatures`, sending('POST', body))
  return { ...shop, ask, sign, count: events.length }
}
const SUE = { meaning: 'review' }

describe('signing a record', () => {
  test('makes an entry with name, meaning and time, bound to the last link of what was looked at', async () => {
    const { sign, count, records, accounts } = await signing()
    const before = await records.chainOfRun('run-1')
    const answer = await sign({ ...SUE, entries: count })
    expect(answer.status).toBe(200)
    const { events } = await records.eventsAfter('run-1', 0)
    expect(events.at(-1)).toMatchObject({
      type: 'signed',
      by: OWNER.name,
      person: (await accounts.personNamed(OWNER.name))?.id,
      meaning: 'review',
      entries: count,
      head: before.at(-1)?.link,
      device: 'server',
      seq: 1
    })
    expect(events.at(-1)?.at).toBeGreaterThanOrEqual(NOW)
    expect(events.every(({ at }) => at <= (events.at(-1)?.at ?? 0))).toBe(true)
  })

  test('tells open pages, and counts on for the next one', async () => {
    const { sign, count, live, records } = await signing()
    const moved: string[] = []
    live.listen(
      ({ runId }) => moved.push(runId),
      () => {}
    )
    await sign({ ...SUE, entries: count })
    expect((await sign({ ...SUE, meaning: 'approval', entries: count + 1 })).status).toBe(200)
    expect(moved).toEqual(['run-1', 'run-1'])
    const { events } = await records.eventsAfter('run-1', 0)
    expect(events.slice(-2).map(({ seq }) => seq)).toEqual([1, 2])
  })

  test('is refused when the record has changed since it was looked at', async () => {
    const { sign, count, records } = await signing()
    const answer = await sign({ ...SUE, entries: count - 1 })
    expect(answer.status).toBe(409)
    expect(await answer.json()).toMatchObject({ title: 'The record has changed' })
    expect((await records.eventsAfter('run-1', 0)).events).toHaveLength(count)
  })

  test('is refused while the run goes on, and for a run nobody knows', async () => {
    const open = closedRun('run-1').filter(({ type }) => type !== 'run-finished')
    const { sign, count } = await signing(open)
    expect((await sign({ ...SUE, entries: count })).status).toBe(409)
    expect((await sign({ ...SUE, entries: 0 }, 'nobody')).status).toBe(404)
  })

  test('is refused where an end that was told does not hold: a device that was away took a step back before', async () => {
    const events = closedRun('run-1')
    const answered = events.findLast(({ type }) => type === 'check-answered')
    if (!answered) throw new Error('Something was answered.')
    const { id, runId, at, deviceAt, by, via } = answered
    const envelope = { id: 'late', runId, at: at + 0.5, deviceAt, device: 'phone', seq: 1, by, via }
    const { sign, count, records, ask } = await signing([...events, { ...envelope, type: 'taken-back', cancels: id }])
    expect((await sign({ ...SUE, entries: count })).status).toBe(200)
    await publishSmall(records)
    const again: RunEvent = { ...envelope, id: 'remark', seq: 2, type: 'noted', field: 'remark', value: 'Late.' }
    await ask('/api/events', sending('POST', { events: [again] }))
    const answer = await sign({ ...SUE, entries: count + 2 })
    expect(await answer.json()).toMatchObject({ title: 'The run is not over' })
  })

  test.each([[{ ...SUE, name: 'Somebody else' }], [{ ...SUE, meaning: 'liking' }], [{}], [null]])(
    'is refused without a known meaning or a count, and takes no name but that of the account: %o',
    async (body) => {
      const { sign, count } = await signing()
      expect((await sign(body && { entries: count, ...body })).status).toBe(422)
    }
  )

  test('a signature that is sent as an event is forged: refused, named and logged', async () => {
    const { ask, count, logged, records } = await signing()
    const last = closedRun('run-1').at(-1)
    const forged = { ...last, id: 'forged', type: 'signed', meaning: 'approval', entries: count, head: '0' }
    const answer = await ask('/api/events', sending('POST', { events: [forged] }))
    expect(await answer.json()).toMatchObject({
      stored: [],
      rejected: [{ id: 'forged', why: expect.stringContaining('server') }]
    })
    expect(logged).toEqual([expect.stringContaining('forged')])
    expect((await records.eventsAfter('run-1', 0)).events).toHaveLength(count)
  })
})
