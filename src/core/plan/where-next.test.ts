import { describe, expect, it } from 'vitest'
import { carriedRun, DONE, type CarriedRun } from '../../../tests/helpers/a-run.ts'
import { aCourse } from '../../../tests/helpers/a-procedure.ts'
import { whereNext } from './where-next.ts'

const soak = (seconds: number) => `wait: {for: soak, at least: ${seconds} s, source: Label}`
const acknowledge = (lane: string) => ({ type: 'acknowledge-wait', lane }) as const
const next = (run: CarriedRun) => whereNext(run.course, run.run(), run.at())

/** Two sides and the bench: a step, a step with a wait, a step; the bench has two steps. A barrier at the end. */
const COURSE = aCourse(`  - stage: A
    steps:
      - {step: one, say: One., hands: 10 s}
      - {step: two, say: Two., hands: 10 s, ${soak(60)}}
      - {step: three, say: Three., hands: 10 s}
      - {step: scrub, on: bench, say: Scrub., hands: 10 s}
      - {step: dry, on: bench, say: Dry., hands: 10 s}
      - {step: power, on: whole machine, say: Power., hands: 10 s}
      - {step: four, say: Four., hands: 10 s}`)

describe('the hands', () => {
  it('begin on the first side', () => {
    expect(next(carriedRun(COURSE))).toEqual({ kind: 'hands', lane: 'left' })
  })

  it('stay with a side until it waits', () => {
    const run = carriedRun(COURSE).do(DONE)
    expect(next(run)).toEqual({ kind: 'hands', lane: 'left' })
    expect(next(run.do(DONE))).toEqual({ kind: 'hands', lane: 'right' })
  })

  it('stay where they are when another wait ends meanwhile', () => {
    const run = carriedRun(COURSE).do(DONE, DONE).pass(60).do(acknowledge('left'))
    expect(next(run)).toEqual({ kind: 'hands', lane: 'right' })
    run.do(DONE)
    expect(next(run)).toEqual({ kind: 'hands', lane: 'right' })
    // The right side waits now; the left one is free.
    expect(next(run.do(DONE))).toEqual({ kind: 'hands', lane: 'left' })
  })

  it('fill waits with the bench', () => {
    const run = carriedRun(COURSE).do(DONE, DONE, DONE, DONE)
    expect(next(run)).toEqual({ kind: 'hands', lane: 'bench' })
  })

  it('leave the bench only when it is done, and then for the side whose wait ended first', () => {
    const run = carriedRun(COURSE).do(DONE, DONE).pass(5).do(DONE, DONE, DONE).pass(65)
    run.do(acknowledge('left'), acknowledge('right'))
    expect(next(run)).toEqual({ kind: 'hands', lane: 'bench' })
    expect(next(run.do(DONE))).toEqual({ kind: 'hands', lane: 'left' })
  })

  it('are free until the first wait is over when everything waits', () => {
    const run = carriedRun(COURSE).do(DONE, DONE).pass(5).do(DONE, DONE, DONE, DONE)
    const due = run.run().lanes['left']?.waiting?.due
    expect(next(run)).toEqual({ kind: 'wait', lane: 'left', until: due })
  })

  it('go where the operator chose, as long as there is something to do', () => {
    const run = carriedRun(COURSE).do({ type: 'choose-lane', lane: 'bench' })
    expect(next(run)).toEqual({ kind: 'hands', lane: 'bench' })
    run.do(DONE)
    expect(next(run)).toEqual({ kind: 'hands', lane: 'bench' })
    expect(next(run.do(DONE))).toEqual({ kind: 'hands', lane: 'left' })
  })

  it('do not go to a side that waits, even when the operator asks', () => {
    const run = carriedRun(COURSE).do(DONE, DONE, { type: 'choose-lane', lane: 'left' })
    expect(run.events().at(-1)).toMatchObject({ type: 'refused', reason: 'wait-not-over', remainingMs: 60_000 })
    expect(next(run)).toEqual({ kind: 'hands', lane: 'right' })
  })

  it('put right what is wrong before they begin elsewhere, but end the lane in hand first', () => {
    const run = carriedRun(COURSE).do({ type: 'call-hands' }, { type: 'report-problem', lane: 'right', text: 'Leak' })
    expect(next(run)).toEqual({ kind: 'hands', lane: 'left' })
    expect(next(run.do(DONE, DONE))).toEqual({ kind: 'hands', lane: 'right' })
    expect(run.call()).toMatchObject({ kind: 'stopped', lane: 'right' })
  })

  it('may leave a stopped lane for one where work can be done', () => {
    const run = carriedRun(COURSE).do(
      { type: 'report-problem', lane: 'left', text: 'Leak' },
      { type: 'choose-lane', lane: 'right' }
    )
    expect(next(run)).toEqual({ kind: 'hands', lane: 'right' })
  })

  it('come to the whole machine last, and to no side before it', () => {
    const run = carriedRun(COURSE).do(DONE, DONE, DONE, DONE, DONE, DONE).pass(60)
    run.do(acknowledge('left'), acknowledge('right'), DONE)
    expect(next(run)).not.toMatchObject({ lane: 'machine' })
    run.do(DONE)
    expect(next(run)).toEqual({ kind: 'hands', lane: 'machine' })
    expect(next(run.do(DONE))).toEqual({ kind: 'hands', lane: 'left' })
  })

  it('have nothing left to do at the end', () => {
    const run = carriedRun(aCourse('  - {stage: A, steps: [{step: one, on: bench, say: One., hands: 5 s}]}')).do(DONE)
    expect(next(run)).toEqual({ kind: 'nothing' })
  })
})
