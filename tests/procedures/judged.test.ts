/** What the rules that are shipped as chosen ask for must be measured: a batch that is never judged only looks safe. */
import { expect, test } from 'vitest'
import { layOut } from '../../src/core/procedure/course.ts'
import { batchUpTo, endsBatch } from '../../src/core/run/batch.ts'
import { judgeByRules } from '../../src/core/run/rules-met.ts'
import { SHIPPED_WITH_RULES } from './shipped-files.ts'

test.each(SHIPPED_WITH_RULES)('$name measures all that its rules judge by', ({ procedure }) => {
  const course = layOut(procedure)
  const unjudged = course.lanes.flatMap((lane) =>
    lane.steps.flatMap(({ step }) => {
      const { check } = step
      if (check?.kind !== 'reading' || !check.heldTo || !endsBatch(course, { lane: lane.id, step: step.id })) return []
      const readings = batchUpTo(course, lane.id, step.id).flatMap(({ step: { check: one } }) =>
        one?.kind === 'reading' ? [{ kind: 'reading' as const, unit: one.unit, value: one.min ?? one.max ?? 0 }] : []
      )
      const judged = judgeByRules(check.heldTo, readings)
      return judged.kind === 'open' ? [`${step.id}: ${judged.lacks?.missing.join(', ')}`] : []
    })
  )
  expect(unjudged).toEqual([])
})
