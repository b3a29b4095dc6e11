/** How long it takes without a plan: what a crew does that nobody tells where to go. Limits are not looked at. */
import type { Problem } from './problem.ts'
import { manyHandsBy, type Rule } from './many-hands.ts'

export interface NaiveOrder {
  /** ms from now; null when its tools keep it from ending. */
  readonly finish: number | null
  /** Upper limits that it misses. */
  readonly missed: number
}

export interface NaiveOrders {
  readonly oneSideThenOther: NaiveOrder
  readonly alternate: NaiveOrder
  readonly stayUntilWait: NaiveOrder
  readonly longestTail: NaiveOrder
}

/** A lane is stayed with, or waited at, however long that takes. */
const HUGE = 1e12

export function naiveOrders(problem: Problem): NaiveOrders {
  const index = new Map([...problem.chains, problem.machine].map(({ lane }, at) => [lane, at]))
  const place = (lane: string) => index.get(lane) ?? 0
  return {
    oneSideThenOther: carried(problem, ({ lane }) => place(lane)),
    alternate: carried(
      problem,
      ({ start, stays, isFree, lane }) => (isFree ? 0 : HUGE) + start * 1e3 + (stays ? 1 : 0) * 1e9 + place(lane)
    ),
    stayUntilWait: carried(problem, ({ start, stays, isFree, lane }) =>
      stays && isFree ? -HUGE : (isFree ? 0 : HUGE) + start * 1e3 + place(lane)
    ),
    longestTail: carried(
      problem,
      ({ tail, isFree, start, lane }) => (isFree ? -tail * 1e3 : HUGE + start * 1e3) + place(lane)
    )
  }
}

function carried(problem: Problem, rule: Rule): NaiveOrder {
  const one = { ...problem, hands: problem.hands.slice(0, 1) }
  const plan = manyHandsBy(one, rule)
  return plan ? { finish: plan.finish, missed: plan.missed } : { finish: null, missed: 0 }
}
