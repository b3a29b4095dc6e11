/** What a planner can be asked, and its answer, wherever it is worked out. */
import { forecast, type Forecast } from '../core/plan/forecast.ts'
import { preview, type Preview } from '../core/plan/preview.ts'
import type { Problem } from '../core/plan/problem.ts'
import type { LaneId } from '../core/procedure/procedure.ts'

export type PlanQuestion =
  | { readonly kind: 'forecast'; readonly problem: Problem; readonly inHand: LaneId | null }
  | { readonly kind: 'preview'; readonly problem: Problem }

export type PlanAnswer =
  | { readonly kind: 'forecast'; readonly forecast: Forecast }
  | { readonly kind: 'preview'; readonly preview: Preview }

export function answerPlanQuestion(question: PlanQuestion): PlanAnswer {
  return question.kind === 'forecast'
    ? { kind: 'forecast', forecast: forecast(question.problem, question.inHand) }
    : { kind: 'preview', preview: preview(question.problem) }
}
