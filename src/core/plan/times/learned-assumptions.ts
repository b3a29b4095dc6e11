/** What the planner goes by, once there are records. */
import type { PlanAssumptions } from '../problem-of-run.ts'
import type { LearnedTimes, Pace } from './learned-times.ts'

/** Mean hands-on times at the day's pace; the stated time of a step that nothing is known of. */
export function learnedAssumptions(
  { steps }: Pick<LearnedTimes, 'steps'>,
  pace: Pace,
  changeMs: number
): PlanAssumptions {
  const factor = Math.exp(pace.logMean)
  return {
    handsMs(_, { id, handsSeconds }) {
      const known = Object.hasOwn(steps, id) ? steps[id] : undefined
      return Math.round((known?.meanSeconds ?? handsSeconds) * factor * 1000)
    },
    changeMs
  }
}
