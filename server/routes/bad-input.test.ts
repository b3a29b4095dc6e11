/** What nobody should send: each is named, refused and logged, and what stands beside it is kept. Exports: tests/record. */
import { expect, test } from 'vitest'
import { anApp, NOW } from '../../tests/helpers/an-app.ts'
import { expectProblem } from '../../tests/helpers/expect-problem.ts'
import { counting, STARTED } from '../../tests/helpers/stamping.ts'

const stamp = counting()(NOW)
const started = stamp(STARTED)
const [paused, resumed] = [stamp({ type: 'paused' }), stamp({ type: 'resumed' })]

test.each<readonly [string, object, string]>([
  [
    'an entry that is kept already, with other words',
    { ...started, by: 'Somebody else' },
    'another event with this id'
  ],
  [
    'a signature that no server made',
    { ...paused, id: 'forged', type: 'signed', meaning: 'approval', entries: 1, head: '0' },
    'made on the server'
  ],
  ['an entry with more in it than there is', { ...paused, id: 'forged', approved: true }, 'approved'],
  ['an entry of a run that is unknown here', { ...paused, id: 'forged', runId: 'unheard-of' }, 'began'],
  ['an entry that an older page may have made', { ...paused, id: 'forged', type: 'stopped' }, 'type'],
  ['an entry as an older page may have left it', { ...paused, id: 'forged', deviceAt: undefined }, 'deviceAt']
])('%s', async (_, bad, why) => {
  const { send, records, logged } = anApp()
  await send({ events: [started] })
  const answer = await send({ events: [bad, paused] })
  expect(answer.status).toBe(200)
  expect(await answer.json()).toMatchObject({
    stored: [paused.id],
    rejected: [{ id: (bad as { id: string }).id, why: expect.stringContaining(why) }]
  })
  expect(logged).toEqual([expect.stringContaining('Refused')])
  expect((await records.eventsAfter('run', 0)).events).toEqual([started, paused])
})

test('an entry of 10 MB: the request is refused by its size, and nothing of it is kept', async () => {
  const { send, records, logged } = anApp()
  const huge = { ...stamp({ type: 'problem-reported', lane: 'left', text: 'x'.repeat(10 * 1024 * 1024) }) }
  const body = JSON.stringify({ events: [started, huge, resumed] })
  await expectProblem(await send(body, { 'content-length': String(body.length) }), 413)
  expect(logged).toEqual(['Refused a request: more than 1 MB of events at a time.'])
  expect((await records.eventsAfter('run', 0)).events).toEqual([])
  expect(await (await send({ events: [started, resumed] })).json()).toMatchObject({ rejected: [] })
})
