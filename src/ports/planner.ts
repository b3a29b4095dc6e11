/** Works plans out. It may take its time: nobody waits for it in the middle of a touch. */
import type { Forecast, Times } from '../core/plan/forecast.ts'
import type { Preview } from '../core/plan/preview.ts'
import type { Problem } from '../core/plan/problem.ts'
import type { LearnedTimes, Pace, StatedTime } from '../core/plan/times/learned-times.ts'
import type { TimeSample } from '../core/plan/times/time-sample.ts'
import type { Course } from '../core/procedure/course.ts'
import type { LaneId } from '../core/procedure/procedure.ts'
import type { RunEvent } from '../core/run/event.ts'

/** Every answer is null when a newer question of its kind has come meanwhile, or when none could be had. */
export interface Planner {
  /** `inHand`: the lane whose step has been begun, or called. */
  forecast(problem: Problem, inHand: LaneId | null, times: Times | null): Promise<Forecast | null>
  preview(problem: Problem, times: Times | null): Promise<Preview | null>
  learn(
    samples: readonly TimeSample[],
    steps: readonly StatedTime[],
    who: Pick<TimeSample, 'machine' | 'operator'>
  ): Promise<LearnedTimes | null>
  /** The pace of a run so far. */
  pace(learned: LearnedTimes, course: Course, events: readonly RunEvent[]): Promise<Pace | null>
  close(): void
}
