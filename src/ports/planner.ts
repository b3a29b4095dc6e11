/** Works plans out. It may take its time: nobody waits for it in the middle of a touch. */
import type { Forecast } from '../core/plan/forecast.ts'
import type { Preview } from '../core/plan/preview.ts'
import type { Problem } from '../core/plan/problem.ts'
import type { LaneId } from '../core/procedure/procedure.ts'

export interface Planner {
  /** Null when a newer question has come meanwhile, or when no answer could be had. */
  forecast(problem: Problem, inHand: LaneId | null): Promise<Forecast | null>
  /** Null when no answer could be had. */
  preview(problem: Problem): Promise<Preview | null>
  close(): void
}
