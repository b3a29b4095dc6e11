/**
 * The problem in plain terms, for judges that share nothing with the planner: every task with what must be over before
 * it, what it must not wait for longer than, and who may hold a tool.
 */
import type { Problem, Task } from '../../src/core/plan/problem.ts'

export interface StatedTask {
  readonly id: string
  readonly lane: string
  readonly hands: number
  /** Tasks whose end, plus so much, comes before its start. */
  readonly after: readonly { readonly id: string; readonly ms: number }[]
  /** Tasks whose end, plus so much, comes after its start. */
  readonly within: readonly { readonly id: string; readonly ms: number }[]
  readonly earliest: number
  readonly latest: number | null
}

export interface Holding {
  readonly tool: string
  readonly from: string
  /** The task that gives it back; null: it is kept to the end. */
  readonly to: string | null
}

export interface Statement {
  readonly tasks: readonly StatedTask[]
  readonly holdings: readonly Holding[]
  /** The wait after each task; all are over at the finish. */
  readonly tails: readonly { readonly id: string; readonly ms: number }[]
  readonly changeMs: number
  readonly at: string | null
  /** No finish is earlier than this: a wait that runs with nothing after it. */
  readonly runsUntil: number
}

export function stated(problem: Problem): Statement {
  const tasks: StatedTask[] = []
  const tails: { id: string; ms: number }[] = []
  const holdings: Holding[] = []
  const id = (lane: string, index: number) => `${lane}.${index}`
  const machine = problem.machine.tasks
  const machineBefore = (block: number) => (block > 0 ? block - 1 : null)
  for (const { lane, tasks: own, readyMs, latestMs } of problem.chains) {
    const open = new Map<string, string>()
    own.forEach((task, index) => {
      const before = own[index - 1]
      const gate = machineBefore(task.block)
      // Where a whole-machine task comes between, it is what the maximum of the task before speaks of.
      const isNextOnLane = before === undefined ? task.block === 0 : before.block === task.block
      const after = [
        ...(before ? [{ id: id(lane, index - 1), ms: before.minMs }] : []),
        ...(gate === null ? [] : [{ id: id('machine', gate), ms: machine[gate]?.minMs ?? 0 }])
      ]
      const within =
        isNextOnLane && before !== undefined && before.maxMs !== null
          ? [{ id: id(lane, index - 1), ms: before.maxMs }]
          : []
      const earliest = index === 0 ? readyMs : 0
      tasks.push({
        id: id(lane, index),
        lane,
        hands: task.handsMs,
        after,
        within,
        earliest,
        latest: index === 0 && isNextOnLane ? latestMs : null
      })
      tails.push({ id: id(lane, index), ms: task.minMs })
      for (const tool of task.takes) open.set(tool, id(lane, index))
      for (const tool of task.frees) {
        const from = open.get(tool)
        if (from === undefined) continue
        holdings.push({ tool, from, to: id(lane, index) })
        open.delete(tool)
      }
    })
    for (const [tool, from] of open) holdings.push({ tool, from, to: null })
  }
  machine.forEach((task, number) => tasks.push(machineTask(problem, task, number)))
  machine.forEach((task, number) => tails.push({ id: id('machine', number), ms: task.minMs }))
  const runsUntil = Math.max(0, ...problem.chains.map(({ readyMs }) => readyMs))
  return { tasks, holdings, tails, changeMs: problem.changeMs, at: problem.hands[0] ?? null, runsUntil }
}

function machineTask({ chains, machine }: Problem, task: Task, number: number): StatedTask {
  const id = (lane: string, index: number) => `${lane}.${index}`
  const after: { id: string; ms: number }[] = []
  const within: { id: string; ms: number }[] = []
  let [earliest, latest] = [0, null as number | null]
  if (number > 0) after.push({ id: id('machine', number - 1), ms: machine.tasks[number - 1]?.minMs ?? 0 })
  for (const { lane, tasks, readyMs, latestMs } of chains) {
    const last = tasks.findLastIndex(({ block }) => block <= number)
    const done = tasks[last]
    if (done) {
      after.push({ id: id(lane, last), ms: done.minMs })
      if (done.maxMs !== null && done.block === number) within.push({ id: id(lane, last), ms: done.maxMs })
    } else if (number === 0) {
      earliest = Math.max(earliest, readyMs)
      if (latestMs !== null) latest = Math.min(latest ?? Number.POSITIVE_INFINITY, latestMs)
    }
  }
  return { id: id('machine', number), lane: 'machine', hands: task.handsMs, after, within, earliest, latest }
}
