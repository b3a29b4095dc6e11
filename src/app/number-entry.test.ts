import { expect, it, test } from 'vitest'
import { aProcedure, EVERYTHING } from '../../tests/helpers/a-procedure.ts'
import { layOut } from '../core/procedure/course.ts'
import { answerOf, typeKey, type NumberCheck, type NumberKey } from './number-entry.ts'

const course = layOut(aProcedure(EVERYTHING))
const checks = course.procedure.stages.flatMap(({ steps }) =>
  steps.flatMap(({ check }) => (check && check.kind !== 'yes-no' ? [check] : []))
)
const [STRENGTH, COUNT] = checks as [NumberCheck, NumberCheck]
const TEMPERATURE: NumberCheck = {
  ...(STRENGTH as Extract<NumberCheck, { kind: 'reading' }>),
  reading: 'temperature',
  unit: 'Cel'
}

const typed = (keys: string, check: NumberCheck) =>
  keys.split('').reduce((text, key) => typeKey(text, key as NumberKey, check), '')

test.each([
  ['150', '150'],
  ['7.2', '7.2'],
  ['7..2', '7.2'],
  ['.5', '0.5'],
  ['007', '7'],
  ['-5', '5'],
  ['1234567', '123456']
])('strength: %s gives %s', (keys, text) => {
  expect(typed(keys, STRENGTH)).toBe(text)
})

test.each([
  ['-18', '-18'],
  ['18-', '-18'],
  ['-18-', '18'],
  ['-.5', '-0.5']
])('temperature: %s gives %s', (keys, text) => {
  expect(typed(keys, TEMPERATURE)).toBe(text)
})

it('counts in whole pieces', () => {
  expect(typed('1.5', COUNT)).toBe('15')
  expect(typed('-4', COUNT)).toBe('4')
})

it('takes the last key back', () => {
  expect(typeKey('15', 'erase', STRENGTH)).toBe('1')
  expect(typeKey('', 'erase', STRENGTH)).toBe('')
})

it('makes an answer only of a whole number', () => {
  expect(answerOf('', STRENGTH)).toBe(null)
  expect(answerOf('7.', STRENGTH)).toBe(null)
  expect(answerOf('-', TEMPERATURE)).toBe(null)
  expect(answerOf('150', STRENGTH)).toEqual({ kind: 'reading', value: 150, unit: '[ppm]' })
  expect(answerOf('8', COUNT)).toEqual({ kind: 'count', value: 8 })
})
