/**
 * When a plan is over whose tasks take what they take: from the plain statement of the problem, the order kept, every
 * task begun as early as its hands, its waits and its tools let it.
 */
import type { PlannedTask } from '../../../src/core/plan/plan.ts'
import type { Problem } from '../../../src/core/plan/problem.ts'
import { stated, type StatedTask } from '../problem-statement.ts'

/** Takes the hands-on time of each task, in the plan's order, and gives the finish; all ms. */
export function carrierOf(problem: Problem, order: readonly PlannedTask[]): (handsMs: readonly number[]) => number {
  const { tasks, holdings, tails, changeMs, runsUntil } = stated(problem)
  const byId = new Map(tasks.map((task) => [task.id, task]))
  const counts = new Map<string, number>()
  const ids = order.map(({ lane }) => {
    const index = counts.get(lane) ?? 0
    counts.set(lane, index + 1)
    return `${lane}.${index}`
  })
  const place = new Map(ids.map((id, index) => [id, index]))
  const plannedEnd = (id: string | null) =>
    id === null ? Number.POSITIVE_INFINITY : (order[place.get(id) ?? -1]?.end ?? Number.NaN)
  const turns = holdings.flatMap((one) =>
    holdings
      .filter((other) => other !== one && other.tool === one.tool)
      .filter((other) => plannedEnd(other.to) <= (order[place.get(one.from) ?? -1]?.start ?? Number.NaN))
      .map((other) => ({ taker: one.from, giver: other.to ?? '' }))
  )
  const plain = ids.map((id, index) => {
    const { after, earliest } = byId.get(id) as StatedTask
    const before = [...after, ...turns.filter(({ taker }) => taker === id).map(({ giver }) => ({ id: giver, ms: 0 }))]
    const { lane, hands } = order[index] as PlannedTask
    return { earliest, lane, hands, before: before.map((one) => ({ index: place.get(one.id) ?? -1, ms: one.ms })) }
  })
  const ends = tails.map(({ id, ms }) => ({ index: place.get(id) ?? -1, ms }))
  return (handsMs) => {
    const end = new Float64Array(plain.length)
    const free = problem.hands.map(() => 0)
    const at = [...problem.hands]
    plain.forEach(({ earliest, lane, hands, before }, index) => {
      const from = at[hands] ?? null
      let start = Math.max(earliest, (free[hands] ?? 0) + (from === null || from === lane ? 0 : changeMs))
      for (const one of before) start = Math.max(start, (end[one.index] ?? Number.NaN) + one.ms)
      end[index] = start + (handsMs[index] ?? Number.NaN)
      free[hands] = end[index] ?? Number.NaN
      at[hands] = lane
    })
    return ends.reduce((last, { index, ms }) => Math.max(last, (end[index] ?? Number.NaN) + ms), runsUntil)
  }
}
