/** What a planner can be asked, and its answer, wherever it is worked out. */
import { forecaster, type Forecast, type Times } from '../core/plan/forecast.ts'
import { preview, type Preview } from '../core/plan/preview.ts'
import type { Problem } from '../core/plan/problem.ts'
import { learnedTimes, type LearnedTimes, type Pace, type StatedTime } from '../core/plan/times/learned-times.ts'
import type { TimeSample } from '../core/plan/times/time-sample.ts'
import { paceOf } from '../core/plan/times/pace.ts'
import { timesInRun } from '../core/plan/times/times-in-run.ts'
import { CHANGE_MS } from '../core/plan/problem-of-run.ts'
import type { Course } from '../core/procedure/course.ts'
import type { RunEvent } from '../core/run/event.ts'
import type { LaneId } from '../core/procedure/procedure.ts'

export type PlanQuestion =
  | {
      readonly kind: 'forecast'
      readonly problem: Problem
      readonly inHand: LaneId | null
      readonly times: Times | null
    }
  | { readonly kind: 'preview'; readonly problem: Problem; readonly times: Times | null }
  | {
      readonly kind: 'learn'
      readonly samples: readonly TimeSample[]
      readonly steps: readonly StatedTime[]
      readonly who: Pick<TimeSample, 'machine' | 'operator'>
    }
  | {
      readonly kind: 'pace'
      readonly learned: LearnedTimes
      readonly course: Course
      readonly events: readonly RunEvent[]
    }

export type PlanAnswer =
  | { readonly kind: 'forecast'; readonly forecast: Forecast }
  | { readonly kind: 'preview'; readonly preview: Preview }
  | { readonly kind: 'learn'; readonly learned: LearnedTimes }
  | { readonly kind: 'pace'; readonly pace: Pace }

/** Answers one question after the other; what it has planned it remembers for the next. */
export function answersPlanQuestions(): (question: PlanQuestion) => PlanAnswer {
  const forecast = forecaster()
  return (question) => answer(question, forecast)
}

function answer(question: PlanQuestion, forecast: ReturnType<typeof forecaster>): PlanAnswer {
  switch (question.kind) {
    case 'forecast':
      return { kind: 'forecast', forecast: forecast(question.problem, question.inHand, question.times) }
    case 'preview':
      return { kind: 'preview', preview: preview(question.problem, question.times) }
    case 'learn':
      return { kind: 'learn', learned: learnedTimes(question.samples, question.steps, question.who) }
    case 'pace': {
      const samples = timesInRun(question.course, question.events, CHANGE_MS)
      return { kind: 'pace', pace: paceOf(question.learned, samples) }
    }
  }
}
