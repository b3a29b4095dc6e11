import { expect, it } from 'vitest'
import { aCourse, aProcedure, EVERYTHING, withHead } from '../../../tests/helpers/a-procedure.ts'
import { laneOf, layOut } from './course.ts'

const COURSE = layOut(aProcedure(EVERYTHING))
const stepsOf = (lane: string) => laneOf(COURSE, lane)?.steps.map(({ step, block }) => `${step.id} ${block}`)

it('gives each side its steps in order, the bench its own, and the whole machine those that stop all', () => {
  expect(COURSE.lanes.map(({ id, kind }) => `${id} ${kind}`)).toEqual([
    'left side',
    'right side',
    'bench bench',
    'machine machine'
  ])
  expect(stepsOf('left')).toEqual(['fill 0', 'soak 0', 'empty 0', 'clear 0', 'sanitize 1', 'strength 1', 'pieces 1'])
  expect(stepsOf('right')).toEqual(stepsOf('left'))
  expect(stepsOf('bench')).toEqual(['scrub-bench 0'])
  expect(stepsOf('machine')).toEqual(['power 0', 'finish 1'])
})

it('knows the stage of each step', () => {
  expect(laneOf(COURSE, 'left')?.steps.map(({ stage }) => stage)).toEqual([0, 0, 0, 0, 2, 2, 2])
})

it('leaves out a bench or whole machine without steps, and keeps a side without any', () => {
  const course = aCourse('  - {stage: A, steps: [{step: one, on: right, say: One., hands: 5 s}]}')
  expect(course.lanes.map(({ id, steps }) => [id, steps.length])).toEqual([
    ['left', 0],
    ['right', 1]
  ])
  expect(laneOf(course, 'bench')).toBe(undefined)
})

it('names shared places in every language of the procedure, in English where it knows no other', () => {
  const text = (words: string) => `{en: ${words}, es: ${words}, fi: ${words}}`
  const yaml = withHead(`  - {stage: ${text('A')}, steps: [{step: one, on: bench, say: ${text('One.')}, hands: 5 s}]}`)
    .replace('[en]', '[en, es, fi]')
    .replaceAll(/^(title|summary|machine): (.*)$/gm, (_, key: string, words: string) => `${key}: ${text(words)}`)
    .replaceAll(/name: (\w+)/g, (_, words: string) => `name: ${text(words)}`)
  expect(laneOf(layOut(aProcedure(yaml)), 'bench')?.name).toEqual({ en: 'Bench', es: 'Mesa', fi: 'Bench' })
})
