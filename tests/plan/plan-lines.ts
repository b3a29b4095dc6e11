/** A plan as lines for people. */
import type { NaiveOrder, NaiveOrders } from '../../src/core/plan/naive-orders.ts'
import type { Plan } from '../../src/core/plan/plan.ts'

export function planLines(plan: Plan, naive: NaiveOrders, hands: number): readonly string[] {
  const { order, finish, lowerBound, switches, limits } = plan
  const laneWidth = Math.max(...order.map(({ lane }) => lane.length), 4)
  const stepWidth = Math.max(...order.map(({ step, round }) => stepName(step, round).length), 4)
  const rows = order.map(
    ({ lane, step, round, start, end, hands: pair, minMs }) =>
      `${clock(start)} - ${clock(end)}  ${hands > 1 ? `hands ${pair + 1}  ` : ''}${lane.padEnd(laneWidth)}  ` +
      `${stepName(step, round).padEnd(stepWidth)}${minMs > 0 ? `  then waits ${clock(minMs)}` : ''}`.trimEnd()
  )
  const gap = finish - lowerBound
  return [
    ...rows,
    '',
    `Over after ${clock(finish)}, with ${switches} changes of lane.`,
    gap === 0
      ? 'No order ends earlier.'
      : `No order ends before ${clock(lowerBound)}; between the two, ${clock(gap)} are open.`,
    ...(limits.kind === 'kept' ? [] : [`A longest wait is missed by ${clock(limits.lateMs)}.`]),
    '',
    `One side, then the other: ${naiveWords(naive.oneSideThenOther)}`,
    `Strictly alternating:     ${naiveWords(naive.alternate)}`,
    `On a side until it waits: ${naiveWords(naive.stayUntilWait)}`
  ]
}

function stepName(step: string, round: number): string {
  return round > 1 ? `${step} (${round})` : step
}

function naiveWords({ finish, missed }: NaiveOrder): string {
  if (finish === null) return 'never ends, because a tool is held elsewhere'
  return `${clock(finish)}${missed === 0 ? '' : `, ${missed} longest waits missed`}`
}

/** Rounded to the second. */
function clock(ms: number): string {
  const seconds = Math.round(ms / 1000)
  const two = (value: number) => String(value).padStart(2, '0')
  return `${Math.floor(seconds / 3600)}:${two(Math.floor(seconds / 60) % 60)}:${two(seconds % 60)}`
}
