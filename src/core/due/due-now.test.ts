import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { dueNow, type DueFacts, type PastRun } from './due-now.ts'
import type { Duty, Schedule } from './schedule.ts'

const CITED = { source: 'The rule', edition: 'not dated', status: 'read' } as const
const at = (text: string) => Date.parse(text)
const HOUR = 3_600_000

const CLOSING: Duty = {
  kind: 'day-of-use',
  procedure: 'closing',
  by: '23:30',
  opens: ['opening'],
  otherwise: 'must-not-be-used',
  ...CITED
}
const OPENING: Duty = {
  kind: 'before-use',
  procedure: 'opening',
  by: '06:00',
  after: ['closing'],
  otherwise: 'must-not-be-used',
  ...CITED
}
const FOUR_HOURS: Duty = {
  kind: 'every',
  procedure: 'slicer',
  everySeconds: 4 * 3600,
  otherwise: 'must-not-be-used',
  ...CITED
}
const WEEKLY: Duty = { kind: 'every', procedure: 'descale', everySeconds: 7 * 86_400, otherwise: 'overdue', ...CITED }

let count = 0
function run(procedure: string, done: string, more: Partial<PastRun> = {}): PastRun {
  const doneAt = at(done)
  count += 1
  return {
    runId: `run-${count}`,
    procedure,
    machine: 'Freezer 1',
    zone: 'America/Chicago',
    startedAt: doneAt - HOUR,
    doneAt,
    open: false,
    ...more
  }
}

function due(duties: readonly Duty[], runs: readonly PastRun[], now: string, rest: Partial<DueFacts> = {}) {
  const schedule: Schedule = { duties }
  const procedures = ['closing', 'opening', 'slicer', 'descale'].map((id) => ({
    id,
    title: { en: id },
    sides: [],
    machine: 'Freezer 1',
    needsMs: HOUR
  }))
  return dueNow({ schedule, procedures, runs, zone: 'America/Chicago', ...rest }, at(now)).map(({ state }) => state)
}

describe('again after so long', () => {
  const cleaned = [run('slicer', '2026-11-28T08:00:00-06:00')]
  test.each([
    [
      '2026-11-28T10:59:59-06:00',
      { kind: 'in-order', startBy: at('2026-11-28T11:00:00-06:00'), dueAt: at('2026-11-28T12:00:00-06:00') }
    ],
    ['2026-11-28T11:00:00-06:00', { kind: 'start-now' }],
    ['2026-11-28T12:00:00-06:00', { kind: 'overdue', use: 'must-not-be-used' }]
  ])('at %s', (now, state) => {
    expect(due([FOUR_HOURS], cleaned, now)).toMatchObject([state])
  })

  test('an interval goes by real hours, also where clocks are changed', () => {
    const [state] = due([FOUR_HOURS], [run('slicer', '2026-11-01T00:30:00-05:00')], '2026-11-01T01:00:00-05:00')
    // 23 and 25 hour days: IANA time zone database, America/Chicago 2026.
    expect(state).toMatchObject({ dueAt: at('2026-11-01T03:30:00-06:00') })
  })

  test('what was never done is said so, and what goes on too', () => {
    expect(due([FOUR_HOURS, WEEKLY], [], '2026-11-28T12:00:00Z')).toEqual([
      { kind: 'never-done', use: 'must-not-be-used' },
      { kind: 'never-done', use: 'overdue' }
    ])
    const open = run('slicer', '2026-11-28T12:00:00Z', { doneAt: null, open: true })
    expect(due([FOUR_HOURS], [open], '2026-11-28T12:30:00Z')).toMatchObject([{ kind: 'under-way', runId: open.runId }])
  })

  test('a run that was ended early has done nothing of it', () => {
    const ended = run('slicer', '2026-11-28T11:00:00-06:00', { doneAt: null })
    expect(due([FOUR_HOURS], [...cleaned, ended], '2026-11-28T13:00:00-06:00')).toMatchObject([{ kind: 'overdue' }])
  })
})

describe('each day of use, and before use', () => {
  const opened = run('opening', '2026-11-27T05:50:00-06:00')
  const closed = run('closing', '2026-11-27T22:40:00-06:00')

  test('closing is due on the evening of a day on which the machine was opened', () => {
    expect(due([CLOSING, OPENING], [opened], '2026-11-27T12:00:00-06:00')).toMatchObject([
      { kind: 'in-order', dueAt: at('2026-11-27T23:30:00-06:00'), startBy: at('2026-11-27T22:30:00-06:00') },
      { kind: 'in-order', dueAt: null }
    ])
    expect(due([CLOSING], [opened], '2026-11-28T00:10:00-06:00')).toMatchObject([
      { kind: 'overdue', dueAt: at('2026-11-27T23:30:00-06:00'), use: 'must-not-be-used' }
    ])
  })

  test('after closing it must be sanitized before it is used again; nothing else is due on a day off', () => {
    expect(due([CLOSING, OPENING], [opened, closed], '2026-11-27T23:00:00-06:00')).toMatchObject([
      { kind: 'in-order', dueAt: null },
      { kind: 'in-order', dueAt: at('2026-11-28T06:00:00-06:00'), startBy: at('2026-11-28T05:00:00-06:00') }
    ])
    expect(due([CLOSING, OPENING], [opened, closed], '2026-11-29T09:00:00-06:00')).toMatchObject([
      { kind: 'in-order', dueAt: null },
      { kind: 'overdue', use: 'must-not-be-used' }
    ])
  })

  test('a shop that names no opening uses its machine every day', () => {
    const daily: Duty = { ...CLOSING, opens: [] }
    expect(due([daily], [closed], '2026-11-28T12:00:00-06:00')).toMatchObject([
      { dueAt: at('2026-11-28T23:30:00-06:00') }
    ])
    expect(due([daily], [], '2026-11-28T12:00:00-06:00')).toMatchObject([{ kind: 'overdue' }])
  })
})

// Changes of clocks: IANA time zone database, 2026. Each is the night between closing and opening.
describe.each([
  ['America/Chicago', '2026-10-31T22:00:00-05:00', '2026-11-01T06:00:00-06:00', 'put back'],
  ['America/Chicago', '2026-03-07T22:00:00-06:00', '2026-03-08T06:00:00-05:00', 'put forward'],
  ['Europe/Berlin', '2026-10-24T22:00:00+02:00', '2026-10-25T06:00:00+01:00', 'put back'],
  ['Europe/Berlin', '2026-03-28T22:00:00+01:00', '2026-03-29T06:00:00+02:00', 'put forward'],
  ['Australia/Lord_Howe', '2026-04-04T22:00:00+11:00', '2026-04-05T06:00:00+10:30', 'put back by half an hour'],
  ['Australia/Lord_Howe', '2026-10-03T22:00:00+10:30', '2026-10-04T06:00:00+11:00', 'put forward by half an hour']
])('%s, closed at %s', (zone, closedAt, dueAt, what) => {
  test(`ready by six as the clock shows it, ${what} in the night`, () => {
    const [state] = due([OPENING], [run('closing', closedAt, { zone })], closedAt)
    expect(state).toEqual({ kind: 'in-order', dueAt: at(dueAt), startBy: at(dueAt) - HOUR })
  })
})

test('time alone only ever makes things more urgent, until somebody does them', () => {
  const order = ['in-order', 'start-now', 'overdue']
  const instant = fc.integer({ min: at('2026-01-01T00:00:00Z'), max: at('2026-12-31T00:00:00Z') })
  fc.assert(
    fc.property(
      instant,
      fc.nat(3 * 86_400_000),
      fc.nat(3 * 86_400_000),
      fc.constantFrom(CLOSING, OPENING, FOUR_HOURS),
      (done, soon, more, duty) => {
        const past = [
          run(
            duty.kind === 'before-use' ? 'closing' : duty.kind === 'every' ? duty.procedure : 'opening',
            new Date(done).toISOString()
          )
        ]
        const [first] = due([duty], past, new Date(done + soon).toISOString())
        const [second] = due([duty], past, new Date(done + soon + more).toISOString())
        expect(order.indexOf(first?.kind ?? '')).toBeLessThanOrEqual(order.indexOf(second?.kind ?? ''))
        expect(order.indexOf(first?.kind ?? '')).toBeGreaterThanOrEqual(0)
      }
    )
  )
})
