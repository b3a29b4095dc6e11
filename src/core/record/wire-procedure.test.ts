import fc from 'fast-check'
import { expect, test } from 'vitest'
import { anyProcedure } from '../../../tests/helpers/any-procedure.ts'
import { readPublishedProcedure } from './wire-procedure.ts'

test('any procedure that can be published is understood, and comes out unchanged', () => {
  fc.assert(
    fc.property(anyProcedure, (procedure) => {
      const sent: unknown = JSON.parse(JSON.stringify(procedure))
      expect(readPublishedProcedure(sent)).toEqual(procedure)
    })
  )
})

test('a procedure with a part missing is not understood', () => {
  fc.assert(
    fc.property(anyProcedure, fc.nat(), (procedure, pick) => {
      const keys = Object.keys(procedure)
      const { [keys[pick % keys.length] ?? '']: _, ...rest } = { ...procedure } as Record<string, unknown>
      expect(readPublishedProcedure(rest)).toBeNull()
    })
  )
})

test('a step of a kind this program does not know is not understood', () => {
  fc.assert(
    fc.property(anyProcedure, (procedure) => {
      const stages = procedure.stages.map((stage) => ({
        ...stage,
        steps: stage.steps.map((step) => ({ ...step, check: { kind: 'photograph' } }))
      }))
      expect(readPublishedProcedure({ ...procedure, stages })).toBeNull()
    })
  )
})

test.each([null, 7, 'procedure', [], {}])('%j is no procedure', (value) => {
  expect(readPublishedProcedure(value)).toBeNull()
})
