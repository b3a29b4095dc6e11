import type { Problem } from './problem.ts'
import type { Procedure } from './procedure.ts'

/** Where a step stands in its author's file. */
export function pathOfStep({ stages }: Procedure, id: string, ...rest: readonly string[]): Problem['path'] {
  const stage = stages.findIndex(({ steps }) => steps.some((step) => step.id === id))
  const step = stages[stage]?.steps.findIndex((one) => one.id === id) ?? 0
  return ['stages', stage, 'steps', step, ...rest]
}
