import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { EVERYTHING, aProcedure } from '../../../tests/helpers/a-procedure.ts'
import { anyEvent, shuffled } from '../../../tests/helpers/any-event.ts'
import { counting, STARTED } from '../../../tests/helpers/stamping.ts'
import { layOut } from '../procedure/course.ts'
import type { Command } from './command.ts'
import { decide } from './decide.ts'
import { compareEvents, type RunEvent } from './event.ts'
import { listedWith, operatorOf, UNHEARD_OF } from './listed-run.ts'
import { replay } from './reduce.ts'
import { FIRST_HANDS, handsOf } from './run.ts'

const listed = (events: readonly RunEvent[]) => events.reduce(listedWith, UNHEARD_OF)

const course = layOut(aProcedure(EVERYTHING))
const DEVICES = ['tablet', 'phone', 'a-third'] as const

interface Move {
  readonly device: (typeof DEVICES)[number]
  readonly command: Command
  readonly passMs: number
}

/** What devices do to one run, each knowing what the others did before. */
function carriedOut(moves: readonly Move[]): readonly RunEvent[] {
  const stamps = Object.fromEntries(DEVICES.map((device) => [device, counting(device)]))
  let at = 1_000_000
  let events: readonly RunEvent[] = [counting('begins')(at)(STARTED)].map((event) => ({ ...event, device: 'tablet' }))
  for (const { device, command, passMs } of moves) {
    at += 1 + passMs
    const stamp = stamps[device]?.(at)
    if (!stamp) throw new Error(`No stamp for ${device}.`)
    const run = replay(course, 'run', events)
    events = [...events, ...decide(course, run, command, at, stamp, { device, order: [] }).events]
  }
  return events
}

const anyCommand: fc.Arbitrary<Command> = fc.oneof(
  fc.constantFrom<Command>(
    { type: 'done' },
    { type: 'understood' },
    { type: 'pause' },
    { type: 'resume' },
    { type: 'take-back' },
    { type: 'report-problem', lane: 'left', text: 'A drip.' }
  ),
  fc.constantFrom('Ben', 'Cleo', 'Dan').map((to): Command => ({ type: 'hand-over', to })),
  fc.constantFrom('Eve', 'Finn').map((name): Command => ({ type: 'join', name })),
  fc.constantFrom(...DEVICES).map((hands): Command => ({ type: 'leave', hands })),
  fc.constant<Command>({ type: 'abandon', reason: 'No water.' })
)
const anyMove: fc.Arbitrary<Move> = fc.record({
  device: fc.constantFrom(...DEVICES),
  command: anyCommand,
  passMs: fc.nat(400_000)
})

/** Events that devices cause together, and the same in another order of arrival. */
const anyArrival = fc
  .array(anyMove, { maxLength: 30 })
  .map(carriedOut)
  .chain((events) => shuffled(events).map((arrived) => ({ events, arrived })))

/** What a list depends on, and one event more. */
const TELLING: readonly RunEvent['type'][] = [
  'run-started',
  'joined',
  'left',
  'handed-over',
  'run-finished',
  'run-abandoned',
  'paused'
]

describe('a run in a list', () => {
  test('is what a replay says, in whatever order the events come', () => {
    fc.assert(
      fc.property(anyArrival, ({ events, arrived }) => {
        const run = replay(course, 'run', events)
        const row = listed(arrived)
        expect(row.started).toEqual(events[0])
        expect(row.lastAt).toBe(events.at(-1)?.at)
        expect(row.open).toBe(run.status === 'running' || run.status === 'paused')
        expect(operatorOf(row)).toBe(handsOf(run, FIRST_HANDS).name)
      }),
      { numRuns: 300 }
    )
  })

  test('depends on no order, even of events that no single device would write', () => {
    const anyOrders = fc
      .uniqueArray(
        anyEvent.filter(({ type }) => TELLING.includes(type)),
        { selector: ({ at, device, seq }) => `${at} ${device} ${seq}`, maxLength: 12 }
      )
      .chain((events) => fc.tuple(fc.constant(events), shuffled(events)))
    fc.assert(
      fc.property(anyOrders, ([events, arrived]) => {
        expect(listed(arrived)).toEqual(listed([...events].sort(compareEvents)))
      })
    )
  })

  test('whoever has joined hands over their own work, not that of whoever began', () => {
    const joins: Move = { device: 'phone', command: { type: 'join', name: 'Eve' }, passMs: 0 }
    const handsOver: Move = { device: 'phone', command: { type: 'hand-over', to: 'Finn' }, passMs: 0 }
    expect(operatorOf(listed(carriedOut([joins, handsOver])))).toBe('Ada')
    expect(operatorOf(listed(carriedOut([{ ...handsOver, device: 'tablet' }, joins])))).toBe('Finn')
  })

  test('whoever speaks for a broken device, without joining, hands over the work of whoever began', () => {
    expect(
      operatorOf(listed(carriedOut([{ device: 'phone', command: { type: 'hand-over', to: 'Finn' }, passMs: 0 }])))
    ).toBe('Finn')
  })

  test('the next in line has it when whoever began is gone', () => {
    const moves: readonly Move[] = [
      { device: 'phone', command: { type: 'join', name: 'Eve' }, passMs: 0 },
      { device: 'phone', command: { type: 'leave', hands: 'tablet' }, passMs: 0 }
    ]
    expect(operatorOf(listed(carriedOut(moves)))).toBe('Eve')
  })

  test("is nobody's while nobody has said that the run started", () => {
    const [, ...rest] = carriedOut([{ device: 'tablet', command: { type: 'hand-over', to: 'Ben' }, passMs: 0 }])
    expect(rest.map(({ type }) => type)).toContain('handed-over')
    expect(operatorOf(listed(rest))).toBe('')
  })
})
