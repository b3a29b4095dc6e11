/** Which tools a lane holds as it goes along. */
import type { Lane } from './course.ts'

/** What a lane holds before each step, following the plain order; repeats must come back holding the same. */
export function holdings(lane: Lane): readonly ReadonlySet<string>[] {
  const before: Set<string>[] = []
  let holding = new Set<string>()
  for (const { step } of lane.steps) {
    before.push(new Set(holding))
    holding = new Set([...holding, ...step.takes].filter((tool) => !step.frees.includes(tool)))
  }
  before.push(holding)
  return before
}
