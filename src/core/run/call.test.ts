import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { carriedRun, DONE } from '../../../tests/helpers/a-run.ts'
import { aCourse, aProcedure, EVERYTHING } from '../../../tests/helpers/a-procedure.ts'
import { anyProcedure } from '../../../tests/helpers/any-procedure.ts'
import { layOut } from '../procedure/course.ts'
import { callAt, waitsAhead } from './call.ts'
import { everyLaneOver } from './reduce.ts'

const acknowledge = (lane: string) => ({ type: 'acknowledge-wait', lane }) as const

/** Two sides with a step and a wait, and one step at the bench. */
const COURSE = aCourse(`  - stage: A
    steps:
      - {step: one, say: One., hands: 10 s, wait: {for: soak, at least: 60 s, source: Label}}
      - {step: two, say: Two., hands: 10 s}
      - {step: scrub, on: bench, say: Scrub., hands: 10 s}`)

describe('the call', () => {
  it('tells which waits are still to be answered, the next one first', () => {
    const run = carriedRun(COURSE).do(DONE).pass(5).do(DONE)
    expect(waitsAhead(run.run()).map(({ lane }) => lane)).toEqual(['left', 'right'])
    run.pass(60).do(acknowledge('left'))
    expect(waitsAhead(run.run()).map(({ lane }) => lane)).toEqual(['right'])
  })

  it('is for the alarm that is longest over, before anything else', () => {
    const run = carriedRun(COURSE).do(DONE).pass(5).do(DONE).pass(70)
    expect(run.call()).toMatchObject({ kind: 'alarm', lane: 'left' })
    expect(run.do(acknowledge('left')).call()).toMatchObject({ kind: 'alarm', lane: 'right' })
    expect(run.do(acknowledge('right')).call()).toMatchObject({ kind: 'step', lane: 'bench' })
  })

  it('is for an alarm during a pause, too', () => {
    const run = carriedRun(COURSE).do(DONE, { type: 'pause' })
    expect(run.call()).toEqual({ kind: 'paused' })
    expect(run.pass(60).call()).toMatchObject({ kind: 'alarm', lane: 'left' })
    expect(run.do(acknowledge('left')).call()).toEqual({ kind: 'paused' })
  })

  it('is for the caution until that is acknowledged, and again in every round', () => {
    const run = carriedRun(layOut(aProcedure(EVERYTHING))).do(DONE)
    expect(run.call()).toMatchObject({ kind: 'caution', lane: 'left' })
    run.do({ type: 'understood' })
    expect(run.call()).toMatchObject({ kind: 'step', lane: 'left' })
    run.do(DONE).pass(300).do(acknowledge('left'), { type: 'choose-lane', lane: 'left' }, DONE)
    run.do({ type: 'answer', answer: { kind: 'yes-no', value: 'yes' } }, DONE)
    expect(run.call()).toMatchObject({ kind: 'caution', lane: 'left', place: { step: { id: 'soak' } } })
  })

  it('never says that all is over while something is left to do', () => {
    const anyCommand = fc.constantFrom(
      DONE,
      { type: 'understood' } as const,
      { type: 'confirm', how: 'held' } as const,
      { type: 'answer', answer: { kind: 'yes-no', value: 'no' } } as const,
      { type: 'answer', answer: { kind: 'count', value: 2 } } as const,
      { type: 'take-back' } as const,
      { type: 'report-problem', lane: 'left', text: 'Leak' } as const,
      { type: 'correct', lane: 'left', action: 'Mended.' } as const,
      acknowledge('left'),
      acknowledge('right')
    )
    const anyMoves = fc.array(fc.record({ command: anyCommand, pass: fc.nat(400) }), { maxLength: 40 })
    fc.assert(
      fc.property(anyProcedure, anyMoves, (procedure, moves) => {
        const course = layOut(procedure)
        const run = carriedRun(course)
        for (const { command, pass } of moves) {
          run.pass(pass).do(command)
          const over = callAt(course, run.run(), run.at()).kind === 'finished'
          expect(over).toBe(everyLaneOver(course, run.run()))
        }
      }),
      { numRuns: 150 }
    )
  })
})
