import { expect, it } from 'vitest'
import { aCourse } from '../../tests/helpers/a-procedure.ts'
import { carriedRun, DONE } from '../../tests/helpers/a-run.ts'
import { scoreOf } from './score.ts'

const MINUTE = 60_000
const course = () =>
  aCourse(
    '  - {stage: A, steps: [{step: soak, say: Soak it., hands: 1 min, wait: {for: soak, at least: 5 min, source: Label}}, {step: rinse, say: Rinse it., hands: 2 min}]}'
  )
const wide = (at: number) => ({ at, back: 60 * MINUTE, ahead: 60 * MINUTE })

it('lays out what is still to come before anything was done', () => {
  const run = carriedRun(course(), 0)
  expect(scoreOf(run.course, run.run(), wide(0))).toEqual({
    notes: [
      { lane: 'left', kind: 'hands', from: 0, to: MINUTE },
      { lane: 'left', kind: 'wait', from: MINUTE, to: 6 * MINUTE },
      { lane: 'right', kind: 'hands', from: MINUTE, to: 2 * MINUTE },
      { lane: 'right', kind: 'wait', from: 2 * MINUTE, to: 7 * MINUTE },
      { lane: 'left', kind: 'hands', from: 6 * MINUTE, to: 8 * MINUTE },
      { lane: 'right', kind: 'hands', from: 8 * MINUTE, to: 10 * MINUTE }
    ],
    finish: 10 * MINUTE
  })
})

it('shows what was done, a wait that runs from its beginning, and the step in the hands across now', () => {
  const run = carriedRun(course(), 0).pass(50).do(DONE).pass(20)
  const { notes } = scoreOf(run.course, run.run(), wide(run.at()))
  expect(notes.slice(0, 3)).toEqual([
    { lane: 'left', kind: 'hands', from: 0, to: 50_000 },
    { lane: 'left', kind: 'wait', from: 50_000, to: 50_000 + 5 * MINUTE },
    { lane: 'right', kind: 'hands', from: 50_000, to: 50_000 + MINUTE }
  ])
})

it('lets a step that takes longer than stated go on until now', () => {
  const run = carriedRun(course(), 0).pass(50).do(DONE).pass(200)
  const { notes } = scoreOf(run.course, run.run(), wide(run.at()))
  const inHands = notes.find(({ lane, kind }) => lane === 'right' && kind === 'hands')
  expect(inHands).toEqual({ lane: 'right', kind: 'hands', from: run.at() - MINUTE, to: run.at() })
})

it('keeps to the window', () => {
  const run = carriedRun(course(), 0)
  const { notes, finish } = scoreOf(run.course, run.run(), { at: 0, back: MINUTE, ahead: 90_000 })
  expect(notes.map(({ lane, kind }) => `${lane} ${kind}`)).toEqual(['left hands', 'left wait', 'right hands'])
  expect(finish).toBe(10 * MINUTE)
})
