import { expect, it } from 'vitest'
import { aCourse } from '../../tests/helpers/a-procedure.ts'
import { carriedRun, DONE, type CarriedRun } from '../../tests/helpers/a-run.ts'
import { forecast } from '../core/plan/forecast.ts'
import { AS_STATED, problemOf } from '../core/plan/problem-of-run.ts'
import { handsOf } from '../core/run/run.ts'
import { scoreOf, type Window } from './score.ts'

const MINUTE = 60_000
const course = () =>
  aCourse(
    '  - {stage: A, steps: [{step: soak, say: Soak it., hands: 1 min, wait: {for: soak, at least: 5 min, source: Label}}, {step: rinse, say: Rinse it., hands: 2 min}]}'
  )
/** With the plan of this moment; one task costs nothing to go to, so that the figures are round. */
function scored(run: CarriedRun, window: Window) {
  const problem = problemOf(run.course, run.run(), run.at(), { ...AS_STATED, changeMs: 0 })
  const { focus } = handsOf(run.run(), '')
  return scoreOf(run.course, run.run(), { at: run.at(), forecast: forecast(problem, focus, null) }, window)
}
const wide = (at: number) => ({ at, back: 60 * MINUTE, ahead: 60 * MINUTE })

it('lays out what is still to come before anything was done', () => {
  const run = carriedRun(course(), 0)
  expect(scored(run, wide(0))).toEqual([
    { lane: 'left', kind: 'hands', from: 0, to: MINUTE },
    { lane: 'left', kind: 'wait', from: MINUTE, to: 6 * MINUTE },
    { lane: 'right', kind: 'hands', from: MINUTE, to: 2 * MINUTE },
    { lane: 'right', kind: 'wait', from: 2 * MINUTE, to: 7 * MINUTE },
    { lane: 'left', kind: 'hands', from: 6 * MINUTE, to: 8 * MINUTE },
    { lane: 'right', kind: 'hands', from: 8 * MINUTE, to: 10 * MINUTE }
  ])
})

it('shows what was done, a wait that runs from its beginning, and the step in the hands across now', () => {
  const run = carriedRun(course(), 0).pass(50).do(DONE).pass(20)
  const notes = scored(run, wide(run.at()))
  expect(notes.slice(0, 3)).toEqual([
    { lane: 'left', kind: 'hands', from: 0, to: 50_000 },
    { lane: 'left', kind: 'wait', from: 50_000, to: 50_000 + 5 * MINUTE },
    { lane: 'right', kind: 'hands', from: 50_000, to: 50_000 + MINUTE }
  ])
})

it('shows a step that takes longer than stated from its beginning, and as about to end', () => {
  const run = carriedRun(course(), 0).pass(50).do(DONE).pass(200)
  const notes = scored(run, wide(run.at()))
  const inHands = notes.find(({ lane, kind }) => lane === 'right' && kind === 'hands')
  expect(inHands).toEqual({ lane: 'right', kind: 'hands', from: 50_000, to: run.at() + 0.15 * MINUTE })
})

it('keeps to the window', () => {
  const run = carriedRun(course(), 0)
  const notes = scored(run, { at: 0, back: MINUTE, ahead: 90_000 })
  expect(notes.map(({ lane, kind }) => `${lane} ${kind}`)).toEqual(['left hands', 'left wait', 'right hands'])
})
