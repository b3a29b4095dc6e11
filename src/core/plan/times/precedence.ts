/**
 * What each task of a plan waits for, once the order is settled: the hands, the wait before it on its lane, the machine,
 * a tool. Maxima are left out: hands begin as early as they can.
 */
import type { PlannedTask } from '../plan.ts'
import type { Chain, Problem, Task } from '../problem.ts'

/** `place`: where the time is kept that something ends. Time 0 stands in every place before anything is put there. */
export interface After {
  readonly place: number
  /** So much later, ms. */
  readonly later: number
}

export interface OrderedTask {
  readonly planned: PlannedTask
  /** Never empty. */
  readonly after: readonly After[]
  /** Where its own end is put. */
  readonly places: readonly number[]
}

export interface Precedence {
  readonly places: number
  readonly tasks: readonly OrderedTask[]
  /** All that has to be over at the finish. */
  readonly finish: readonly After[]
}

/** `order` as planned for `problem`. */
export function precedenceOf(problem: Problem, order: readonly PlannedTask[]): Precedence {
  const all = [...problem.chains, problem.machine]
  const machine = all.length - 1
  const handsPlace = (hands: number) => all.length + hands
  const tools = toolsHandedOn(problem, order, all.length + problem.hands.length)
  const waits = all.map(({ readyMs }) => readyMs)
  const at = [...problem.hands]
  const laneAfter = (lane: number): After => ({ place: lane, later: waits[lane] ?? 0 })

  const tasks = order.map((planned, index): OrderedTask => {
    const lane = all.findIndex((chain) => chain.lane === planned.lane)
    const from = at[planned.hands] ?? null
    const change = from === null || from === planned.lane ? 0 : problem.changeMs
    const lanes = lane === machine ? all.map((_, other) => other) : [lane, machine]
    const after = [
      { place: handsPlace(planned.hands), later: change },
      ...lanes.map(laneAfter),
      ...(tools.takenFrom.get(index) ?? []).map((place) => ({ place, later: 0 }))
    ]
    waits[lane] = planned.minMs
    at[planned.hands] = planned.lane
    return { planned, after, places: [lane, handsPlace(planned.hands), ...(tools.putIn.get(index) ?? [])] }
  })
  return { places: tools.places, tasks, finish: all.map((_, lane) => laneAfter(lane)) }
}

interface ToolsHandedOn {
  readonly places: number
  /** By index in the order: where a tool that somebody else put back is taken from ... */
  readonly takenFrom: ReadonlyMap<number, readonly number[]>
  /** ... and where it is put back. */
  readonly putIn: ReadonlyMap<number, readonly number[]>
}

/** Tools go round: whoever takes one more than there are takes the one that was put back first. */
function toolsHandedOn(problem: Problem, order: readonly PlannedTask[], firstPlace: number): ToolsHandedOn {
  const takenFrom = new Map<number, number[]>()
  const putIn = new Map<number, number[]>()
  let places = firstPlace
  // One pair of hands puts a tool back before it goes on: what follows comes later anyway.
  if (problem.hands.length < 2) return { places, takenFrom, putIn }
  const tasks = tasksOf(problem, order)
  for (const [tool, count] of Object.entries(problem.tools)) {
    const takers = tasks.flatMap((task, index) => times(task?.takes, tool, index))
    const givers = tasks
      .flatMap((task, index) => times(task?.frees, tool, index))
      .sort((a, b) => (order[a]?.end ?? 0) - (order[b]?.end ?? 0))
    const held = [...problem.chains, problem.machine].flatMap(({ holds }) => times(holds, tool, 0)).length
    takers.slice(Math.max(0, count - held)).forEach((taker, index) => {
      const giver = givers[index]
      if (giver === undefined || giver >= taker) return
      takenFrom.set(taker, [...(takenFrom.get(taker) ?? []), places])
      putIn.set(giver, [...(putIn.get(giver) ?? []), places])
      places += 1
    })
  }
  return { places, takenFrom, putIn }
}

function tasksOf({ chains, machine }: Problem, order: readonly PlannedTask[]): readonly (Task | undefined)[] {
  const done = new Map<string, number>()
  return order.map(({ lane }) => {
    const chain: Chain | undefined = [...chains, machine].find((one) => one.lane === lane)
    const position = done.get(lane) ?? 0
    done.set(lane, position + 1)
    return chain?.tasks[position]
  })
}

function times(names: readonly string[] | undefined, tool: string, index: number): readonly number[] {
  return (names ?? []).filter((name) => name === tool).map(() => index)
}
