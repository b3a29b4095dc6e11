/** What is wrong with a plan's times, judged from the plain statement of the problem. */
import type { Plan } from '../../src/core/plan/plan.ts'
import type { Statement } from './problem-statement.ts'

export function wrongInPlan(statement: Statement, plan: Plan, hands = 1): readonly string[] {
  const wrong: string[] = []
  const lateMs = plan.limits.kind === 'missed' ? plan.limits.lateMs : 0
  const counts = new Map<string, number>()
  const times = new Map(
    plan.order.map((planned) => {
      const index = counts.get(planned.lane) ?? 0
      counts.set(planned.lane, index + 1)
      return [`${planned.lane}.${index}`, planned] as const
    })
  )
  const at = (id: string) =>
    times.get(id as `${string}.${number}`) ?? { lane: '', start: Number.NaN, end: Number.NaN, hands: 0 }
  if (times.size !== statement.tasks.length) wrong.push(`${times.size} of ${statement.tasks.length} tasks`)
  for (const task of statement.tasks) {
    const { start, end } = at(task.id)
    if (end - start !== task.hands) wrong.push(`${task.id} takes ${end - start}`)
    if (start < task.earliest) wrong.push(`${task.id} before its lane is ready`)
    if (task.latest !== null && start > task.latest + lateMs) wrong.push(`${task.id} too late`)
    for (const { id, ms } of task.after) if (!(start >= at(id).end + ms)) wrong.push(`${task.id} too soon after ${id}`)
    for (const { id, ms } of task.within)
      if (!(start <= at(id).end + ms + lateMs)) wrong.push(`${task.id} too long after ${id}`)
  }
  for (let pair = 0; pair < hands; pair += 1) {
    let [free, lane] = [0, statement.at]
    for (const planned of plan.order.filter((one) => one.hands === pair)) {
      const change = lane !== null && lane !== planned.lane ? statement.changeMs : 0
      if (planned.start < free + change) wrong.push(`hands ${pair} are not free for ${planned.step}`)
      ;[free, lane] = [planned.end, planned.lane]
    }
  }
  for (const [index, a] of statement.holdings.entries()) {
    for (const b of statement.holdings.slice(index + 1)) {
      const until = (to: string | null) => (to === null ? Number.POSITIVE_INFINITY : at(to).end)
      const apart = until(a.to) <= at(b.from).start || until(b.to) <= at(a.from).start
      if (a.tool === b.tool && !apart) wrong.push(`${a.from} and ${b.from} hold the ${a.tool}`)
    }
  }
  const finish = Math.max(statement.runsUntil, ...statement.tails.map(({ id, ms }) => at(id).end + ms))
  if (plan.finish !== finish) wrong.push(`finish ${plan.finish} instead of ${finish}`)
  return wrong
}
