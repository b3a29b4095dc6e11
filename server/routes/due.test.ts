import ICAL from 'ical.js'
import { expect, test } from 'vitest'
import { anApp, NOW } from '../../tests/helpers/an-app.ts'
import { closedRun, publishSmall } from '../../tests/helpers/closed-run.ts'
import { expectProblem } from '../../tests/helpers/expect-problem.ts'
import type { DueList } from '../../src/ports/records.ts'
import type { Schedule } from '../../src/core/due/schedule.ts'

const HOUR = 3_600_000
const CITED = { source: 'The manual', edition: 'not dated', status: 'memory' } as const
const schedule: Schedule = {
  duties: [
    { kind: 'every', procedure: 'test-machine', everySeconds: 4 * 3600, otherwise: 'must-not-be-used', ...CITED }
  ]
}

async function shop(now: number) {
  const { app, send, records } = anApp({ schedule, now: () => now })
  await publishSmall(records)
  const events = closedRun('a', NOW)
  await send({ events })
  return { doneAt: events.at(-1)?.at ?? 0, due: async (path = 'due') => app.request(`/api/${path}`) }
}

test('what is due comes from the records, with when to start by the plan', async () => {
  const { due, doneAt } = await shop(NOW + HOUR)
  const list = (await (await due()).json()) as DueList
  expect(list.duties).toMatchObject([
    {
      procedure: 'test-machine',
      lastDone: doneAt,
      state: { kind: 'in-order', dueAt: doneAt + 4 * HOUR },
      source: 'The manual'
    }
  ])
  const [first] = list.duties
  const begin = first?.state.kind === 'in-order' ? (first.state.startBy ?? 0) : 0
  // Two minutes of waiting and some steps.
  expect(doneAt + 4 * HOUR - begin).toBeGreaterThan(120_000)
})

test('another shop has records of its own', async () => {
  const { due } = await shop(NOW + HOUR)
  expect(await (await due('due?site=Harbour+shop')).json()).toMatchObject({
    duties: [{ state: { kind: 'never-done' } }]
  })
})

test('overdue is plain', async () => {
  const { due } = await shop(NOW + 9 * HOUR)
  expect(await (await due()).json()).toMatchObject({
    duties: [{ state: { kind: 'overdue', use: 'must-not-be-used' } }],
    wear: []
  })
})

test('parts that are worn are in it, by machine and side', async () => {
  const { app, send, records } = anApp({ schedule, now: () => NOW + HOUR })
  const worn = await publishSmall(
    records,
    `parts:\n  - {id: seal, name: Seal, per: side, count: 1, care: grease, replace after: {runs: 1}}`
  )
  await send({
    events: closedRun('a', NOW).map((event) => ('procedureHash' in event ? { ...event, procedureHash: worn } : event))
  })
  expect(await (await app.request('/api/due')).json()).toMatchObject({
    wear: [
      { machine: 'Freezer 1', part: { en: 'Seal' }, lane: 'left', worn: 'due', runs: 1, isKnown: false },
      { lane: 'right', worn: 'due' }
    ]
  })
})

test('a calendar can subscribe to it', async () => {
  const { due, doneAt } = await shop(NOW + 9 * HOUR)
  const answer = await due('due.ics')
  expect(answer.headers.get('content-type')).toBe('text/calendar; charset=utf-8')
  const [component] = new ICAL.Component(ICAL.parse(await answer.text()) as unknown[]).getAllSubcomponents('vevent')
  if (!component) throw new Error('There is an entry.')
  const { summary, description, endDate } = new ICAL.Event(component)
  expect(summary).toBe('Test: Freezer 1')
  expect(description).toContain('must not be used')
  expect(description).toContain('Source: The manual')
  expect(endDate.toUnixTime()).toBe(Math.floor((doneAt + 4 * HOUR) / 1000))
})

test('a calendar has it in the language that it asks for, and in English for one that nobody speaks here', async () => {
  const { due } = await shop(NOW + 9 * HOUR)
  expect(await (await due('due.ics?language=es')).text()).toContain('atrasado: no se debe usar')
  expect(await (await due('due.ics?language=fi')).text()).toContain('overdue: must not be used')
})

test('a zone that is none is refused', async () => {
  const { due } = await shop(NOW)
  await expectProblem(await due('due?zone=No/Where'), 422)
  await expectProblem(await due('due.ics?zone=No/Where'), 422)
})
