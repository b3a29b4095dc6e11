/** Tries every order there is. The earliest times of an order are its longest paths (Bellman and Ford). */
import type { Statement, StatedTask } from './problem-statement.ts'

export interface BruteForced {
  readonly finish: number
  readonly switches: number
}

export function bruteForced(statement: Statement): BruteForced | null {
  let best: BruteForced | null = null
  const visit = (order: readonly StatedTask[]): void => {
    if (order.length === statement.tasks.length) {
      const tried = timed(statement, order)
      if (
        tried &&
        (!best || tried.finish < best.finish || (tried.finish === best.finish && tried.switches < best.switches))
      )
        best = tried
      return
    }
    const done = new Set(order.map(({ id }) => id))
    for (const task of statement.tasks) {
      if (done.has(task.id) || task.after.some(({ id }) => !done.has(id))) continue
      if (toolsAllow(statement, done, task)) visit([...order, task])
    }
  }
  visit([])
  return best
}

function toolsAllow({ holdings }: Statement, done: ReadonlySet<string>, task: StatedTask): boolean {
  const wanted = holdings.filter(({ from }) => from === task.id)
  return wanted.every(({ tool }) =>
    holdings.every((other) => other.tool !== tool || !done.has(other.from) || (other.to !== null && done.has(other.to)))
  )
}

function timed({ changeMs, at, tails, runsUntil }: Statement, order: readonly StatedTask[]): BruteForced | null {
  const edges: { from: string; to: string; ms: number }[] = []
  let [last, lane, switches] = ['now', at, 0]
  for (const task of order) {
    const isMove = lane !== null && lane !== task.lane
    if (isMove) switches += 1
    edges.push({ from: last, to: task.id, ms: (isMove ? changeMs : 0) + task.hands })
    edges.push({ from: 'now', to: task.id, ms: task.earliest + task.hands })
    for (const { id, ms } of task.after) edges.push({ from: id, to: task.id, ms: ms + task.hands })
    for (const { id, ms } of task.within) edges.push({ from: task.id, to: id, ms: -ms - task.hands })
    if (task.latest !== null) edges.push({ from: task.id, to: 'now', ms: -task.latest - task.hands })
    last = task.id
    lane = task.lane
  }
  const ends = new Map<string, number>([['now', 0]])
  for (let round = 0; ; round += 1) {
    if (round > order.length + 1) return null
    let isChanged = false
    for (const { from, to, ms } of edges) {
      const start = ends.get(from)
      if (start === undefined || start + ms <= (ends.get(to) ?? Number.NEGATIVE_INFINITY)) continue
      if (to === 'now') return null
      ends.set(to, start + ms)
      isChanged = true
    }
    if (!isChanged) break
  }
  const finish = Math.max(runsUntil, ...tails.map(({ id, ms }) => (ends.get(id) ?? 0) + ms))
  return { finish, switches }
}
