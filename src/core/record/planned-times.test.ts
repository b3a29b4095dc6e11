import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { carriedRun, DONE } from '../../../tests/helpers/a-run.ts'
import { aCourse } from '../../../tests/helpers/a-procedure.ts'
import { anyProcedure } from '../../../tests/helpers/any-procedure.ts'
import { layOut } from '../procedure/course.ts'
import { makeRecord } from './make-record.ts'
import { plannedTimes } from './planned-times.ts'

// Worked out by hand: while the left side soaks, the hands go over (five seconds) and begin the right one.
const COURSE = aCourse(`  - stage: A
    steps:
      - {step: fill, say: Fill it., hands: 20 s, wait: {for: soak, at least: 1 min, source: Label}}
      - {step: rinse, say: Rinse it., hands: 10 s, ask: {question: Is it clear?}, again: {from: rinse, at least: 2, at most: 3}}`)
const START = 1_000_000

describe('when each step was planned', () => {
  const planned = plannedTimes(COURSE, START)
  const inSeconds = (lane: string, step: string, round = 1) => {
    const found = planned({ lane, step, round })
    return found && [found.from, found.to, found.due].map((at) => (at - START) / 1000)
  }

  test('counts from the beginning of the run, with the wait that follows', () => {
    expect(inSeconds('left', 'fill')).toEqual([0, 20, 80])
    expect(inSeconds('right', 'fill')).toEqual([25, 45, 105])
    expect(inSeconds('left', 'rinse')).toEqual([80, 90, 90])
  })

  test('is told of each round that had to be, and of no other', () => {
    expect(inSeconds('left', 'rinse', 2)).toEqual([90, 100, 100])
    expect(inSeconds('left', 'rinse', 3)).toBeNull()
    expect(inSeconds('left', 'polish')).toBeNull()
  })

  test('stands beside when it was done', () => {
    const run = carriedRun(COURSE)
    run.pass(30).do(DONE)
    const record = makeRecord(COURSE, run.events())
    const at = record?.startedAt ?? 0
    expect(record?.steps[0]).toMatchObject({
      from: at,
      at: at + 30_000,
      planned: { from: at, to: at + 20_000, due: at + 80_000 }
    })
    expect(record?.waits[0]).toMatchObject({ since: at + 30_000, due: at + 90_000, planned: { due: at + 80_000 } })
  })

  test('is the same whenever it is computed, and keeps every minimum', () => {
    fc.assert(
      fc.property(anyProcedure, (procedure) => {
        const [course, again] = [layOut(procedure), layOut(procedure)]
        const [once, anew] = [plannedTimes(course, START), plannedTimes(again, START)]
        for (const { id, steps } of course.lanes) {
          let due = START
          for (const { step } of steps) {
            const ref = { lane: id, step: step.id, round: 1 }
            expect(anew(ref)).toEqual(once(ref))
            const found = once(ref)
            if (!found) continue
            expect(found.from).toBeGreaterThanOrEqual(due)
            due = found.due
          }
        }
      }),
      { numRuns: 40 }
    )
  })
})
