import { expect, it } from 'vitest'
import { aCourse, aProcedure, EVERYTHING } from '../../tests/helpers/a-procedure.ts'
import { carriedRun, DONE, UNDERSTOOD, type CarriedRun } from '../../tests/helpers/a-run.ts'
import { layOut } from '../core/procedure/course.ts'
import { laneRows, sameRow } from './lane-rows.ts'

const rows = (carried: CarriedRun) => laneRows(carried.course, carried.run(), carried.call(), carried.at())
const moods = (carried: CarriedRun) => Object.fromEntries(rows(carried).map(({ lane, mood }) => [lane, mood]))
const row = (carried: CarriedRun, lane: string) => rows(carried).find((known) => known.lane === lane)

it('shows where the hands are, and what comes after', () => {
  const run = carriedRun(layOut(aProcedure(EVERYTHING)))
  expect(moods(run)).toEqual({ left: 'hands', right: 'ready', bench: 'ready' })
  expect(row(run, 'left')?.next).toEqual({ en: 'Start the beater.' })
  expect(row(run, 'right')?.next).toEqual({ en: 'Fill the hopper.' })
})

it('shows a lane whose tool is on another lane', () => {
  const run = carriedRun(layOut(aProcedure(EVERYTHING))).do(DONE)
  expect(moods(run)).toMatchObject({ left: 'hands', right: 'tool-in-use' })
})

it('shows a wait with its due time, then its alarm, then what it held up', () => {
  const run = carriedRun(layOut(aProcedure(EVERYTHING))).do(DONE, UNDERSTOOD, DONE)
  expect(row(run, 'left')).toMatchObject({
    mood: 'waiting',
    timer: { kind: 'at-least', wait: 'agitation', until: run.at() + 300_000 }
  })
  run.pass(300)
  expect(row(run, 'left')).toMatchObject({ mood: 'alarm', timer: null })
  run.do({ type: 'acknowledge-wait', lane: 'left' })
  expect(row(run, 'left')?.mood).toMatch(/hands|ready/)
})

it('counts down to the longest time once the shortest is over', () => {
  const course = aCourse(
    '  - {stage: A, steps: [{step: a, say: Pour it., hands: 1 s, wait: {for: contact, at least: 1 min, at most: 3 min, source: Label, late: {say: Again., redo: a}}}, {step: b, say: Drain it., hands: 1 s}]}'
  )
  const run = carriedRun(course).do(DONE).pass(70).do({ type: 'acknowledge-wait', lane: 'left' })
  expect(row(run, 'left')?.timer).toEqual({ kind: 'at-most', wait: 'contact', until: run.at() + 110_000 })
  expect(row(run.pass(200), 'left')?.mood).toBe('late')
})

it('shows the machine only when something of its own goes on there', () => {
  const course = aCourse(
    '  - {stage: A, steps: [{step: a, on: whole machine, say: Cool it., hands: 1 s, wait: {for: freeze, at least: 1 min, source: Manual}}, {step: b, say: Look., hands: 1 s}]}'
  )
  const run = carriedRun(course)
  expect(moods(run)).toEqual({ left: 'at-barrier', right: 'at-barrier' })
  expect(moods(run.do(DONE))).toEqual({ left: 'at-barrier', right: 'at-barrier', machine: 'waiting' })
})

it('shows a stopped lane as stopped, and that the call is for it', () => {
  const run = carriedRun(layOut(aProcedure(EVERYTHING))).do({ type: 'report-problem', lane: 'left', text: 'It leaks' })
  expect(row(run, 'left')).toMatchObject({ mood: 'stopped', called: true })
})

it('knows rows that show the same', () => {
  const run = carriedRun(layOut(aProcedure(EVERYTHING)))
  const [before] = rows(run)
  const [later] = rows(run.pass(1))
  const [after] = rows(run.do(DONE))
  if (!before || !later || !after) throw new Error('no rows')
  expect(sameRow(before, later)).toBe(true)
  expect(sameRow(before, after)).toBe(false)
})
