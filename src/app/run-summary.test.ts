import { expect, it } from 'vitest'
import { aCourse } from '../../tests/helpers/a-procedure.ts'
import { carriedRun, DONE } from '../../tests/helpers/a-run.ts'
import { summarise } from './run-summary.ts'

const READ =
  '{step: a, on: bench, say: Dip a strip., hands: 1 s, read: {question: What?, reading: strength, unit: ppm, at least: 100, at most: 200, source: Label, if not: [Remix.]}}'
const strength = (value: number) => ({ type: 'answer', answer: { kind: 'reading', value, unit: '[ppm]' } }) as const

it('sums up a run with a bad reading, its correction, refusals, a hand-over and its end', () => {
  const run = carriedRun(aCourse(`  - {stage: A, steps: [${READ}]}`))
    .do(DONE, strength(50), DONE)
    .pass(60)
    .do({ type: 'correct', lane: 'bench', action: 'Remix.' }, { type: 'hand-over', to: 'Bo' }, strength(150))
  expect(run.call().kind).toBe('finished')
  expect(summarise(run.events())).toEqual({
    durationMs: 60_000,
    answers: [
      { lane: 'bench', step: 'a', answer: { kind: 'reading', value: 50, unit: '[ppm]' }, good: false },
      { lane: 'bench', step: 'a', answer: { kind: 'reading', value: 150, unit: '[ppm]' }, good: true }
    ],
    corrections: [{ lane: 'bench', action: 'Remix.' }],
    problems: [],
    newParts: [],
    refused: 2,
    takenBack: 0,
    lost: 0,
    operators: ['Ada', 'Bo']
  })
})

it('leaves out what was taken back, and counts it', () => {
  const run = carriedRun(aCourse(`  - {stage: A, steps: [${READ}, {step: b, on: bench, say: Next., hands: 1 s}]}`)).do(
    strength(150),
    { type: 'take-back' }
  )
  expect(summarise(run.events())).toMatchObject({ answers: [], takenBack: 1 })
})
