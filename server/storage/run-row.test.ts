import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { EVERYTHING, aProcedure } from '../../tests/helpers/a-procedure.ts'
import { carriedRun } from '../../tests/helpers/a-run.ts'
import { anyEvent, shuffled } from '../../tests/helpers/any-event.ts'
import { layOut } from '../../src/core/procedure/course.ts'
import type { Command } from '../../src/core/run/command.ts'
import { compareEvents, type RunEvent } from '../../src/core/run/event.ts'
import { FIRST_HANDS, handsOf } from '../../src/core/run/run.ts'
import { NO_RUN, rowOf, withEvent } from './run-row.ts'

const rowAfter = (events: readonly RunEvent[]) => rowOf('run', events.reduce(withEvent, NO_RUN))

const course = layOut(aProcedure(EVERYTHING))

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
  fc.constant<Command>({ type: 'abandon', reason: 'No water.' })
)

/** Commands with the seconds that pass before each, then a new order for the events they cause. */
const anyArrival = fc
  .array(fc.tuple(anyCommand, fc.nat(400)), { maxLength: 30 })
  .map((moves) => moves.reduce((run, [command, seconds]) => run.pass(seconds).do(command), carriedRun(course)))
  .chain((carried) => shuffled(carried.events()).map((arrived) => ({ carried, arrived })))

/** What a row depends on, and one event more. */
const TELLING: readonly RunEvent['type'][] = ['run-started', 'handed-over', 'run-finished', 'paused']

describe('the row of a run', () => {
  test('says what a replay says, in whatever order the events come', () => {
    fc.assert(
      fc.property(anyArrival, ({ carried, arrived }) => {
        const run = carried.run()
        expect(rowAfter(arrived)).toEqual([
          {
            runId: 'run',
            started: carried.events()[0],
            operator: handsOf(run, FIRST_HANDS).name,
            lastAt: carried.events().at(-1)?.at,
            open: run.status === 'running' || run.status === 'paused'
          }
        ])
      }),
      { numRuns: 300 }
    )
  })

  test('depends on no order, even of events that no single device would write', () => {
    const anyOrders = fc
      .uniqueArray(
        anyEvent.filter(({ type }) => TELLING.includes(type)),
        {
          selector: ({ at, device, seq }) => `${at} ${device} ${seq}`,
          maxLength: 12
        }
      )
      .chain((events) => fc.tuple(fc.constant(events), shuffled(events)))
    fc.assert(
      fc.property(anyOrders, ([events, arrived]) => {
        expect(rowAfter(arrived)).toEqual(rowAfter([...events].sort(compareEvents)))
      })
    )
  })

  test('is missing until somebody says that the run started', () => {
    const [started, ...rest] = carriedRun(course).do({ type: 'done' }, { type: 'hand-over', to: 'Ben' }).events()
    expect(started?.type).toBe('run-started')
    expect(rowAfter(rest)).toEqual([])
  })
})
