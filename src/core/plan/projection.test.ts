import fc from 'fast-check'
import { expect, test } from 'vitest'
import { aCourse, aProcedure, EVERYTHING } from '../../../tests/helpers/a-procedure.ts'
import { anyProcedureWithoutMaxima } from '../../../tests/helpers/any-procedure.ts'
import { layOut } from '../procedure/course.ts'
import { emptyRun } from '../run/reduce.ts'
import { project } from './projection.ts'

const MINUTE = 60_000

/** Longest delivery time rule: one step and one trailing wait a side, the longest wait served first, is best (from memory). */
test('one step and a wait on each side: waits overlap, hands do not', () => {
  const course = aCourse(`  - stage: Soak
    steps:
      - {step: soak, say: Soak it., hands: 1 min, wait: {for: soak, at least: 5 min, source: Label}}`)
  const { segments, finish } = project(course, emptyRun(course, 'run'), 0)
  expect(segments).toEqual([
    { lane: 'left', step: 'soak', kind: 'hands', start: 0, end: MINUTE },
    { lane: 'left', step: 'soak', kind: 'wait', start: MINUTE, end: 6 * MINUTE },
    { lane: 'right', step: 'soak', kind: 'hands', start: MINUTE, end: 2 * MINUTE },
    { lane: 'right', step: 'soak', kind: 'wait', start: 2 * MINUTE, end: 7 * MINUTE }
  ])
  expect(finish).toBe(7 * MINUTE)
})

/**
 * K identical sides of two unit steps with a wait of L between, n <= L + 1 sides: finish = n + L + 1
 * (single machine with time lags, from memory). Staying until a wait reaches it.
 */
test.each([
  [2, 5],
  [3, 5],
  [4, 3]
])('%i identical sides with a wait of %i between two unit steps finish at n + L + 1', (sides, wait) => {
  const names = ['a', 'b', 'c', 'd'].slice(0, sides)
  const course = layOut(
    aProcedure(`procedure: chains
title: T
summary: S
languages: [en]
machine: M
sides: [${names.map((name) => `{id: ${name}, name: ${name}}`).join(', ')}]
stages:
  - stage: A
    steps:
      - {step: one, say: One., hands: 1 min, wait: {for: soak, at least: ${wait} min, source: Label}}
      - {step: two, say: Two., hands: 1 min}`)
  )
  expect(project(course, emptyRun(course, 'run'), 0).finish).toBe((sides + wait + 1) * MINUTE)
})

test('hands are never in two places, and every lane does its steps in order', () => {
  fc.assert(
    fc.property(anyProcedureWithoutMaxima, (procedure) => {
      const course = layOut(procedure)
      const { segments, finish } = project(course, emptyRun(course, 'run'), 1000)
      const hands = segments.filter(({ kind }) => kind === 'hands')
      hands.forEach((segment, index) => {
        if (index > 0) expect(segment.start).toBeGreaterThanOrEqual(hands[index - 1]?.end ?? 0)
      })
      const handsMs = hands.reduce((sum, { start, end }) => sum + end - start, 0)
      expect(finish - 1000).toBeGreaterThanOrEqual(handsMs)
      for (const lane of course.lanes) {
        const done = hands.filter((segment) => segment.lane === lane.id).map(({ step }) => step)
        expect(new Set(done)).toEqual(new Set(lane.steps.map(({ step }) => step.id)))
      }
    })
  )
})

test('a run in the middle is projected from where it is', () => {
  const course = layOut(aProcedure(EVERYTHING))
  const whole = project(course, emptyRun(course, 'run'), 0)
  expect(
    whole.segments.filter(({ lane, kind }) => lane === 'machine' && kind === 'hands').map(({ step }) => step)
  ).toEqual(['power', 'finish'])
  expect(whole.segments.filter(({ step }) => step === 'soak' && step).length).toBe(8)
})
