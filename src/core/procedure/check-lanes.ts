/** Follows each lane from start to end: repeats and corrections that can be reached, tools that always come free. */
import { layOut, type Lane } from './course.ts'
import { holdings } from './holdings.ts'
import type { Problem } from './problem.ts'
import type { Procedure } from './procedure.ts'

type Path = readonly (string | number)[]

export function checkLanes(procedure: Procedure): Problem[] {
  const paths = new Map<string, Path>()
  procedure.stages.forEach((stage, stageIndex) =>
    stage.steps.forEach((step, stepIndex) => paths.set(step.id, ['stages', stageIndex, 'steps', stepIndex]))
  )
  const pathOf = (step: string, ...rest: string[]): Path => [...(paths.get(step) ?? []), ...rest]
  const course = layOut(procedure)
  const problems = course.lanes.flatMap((lane) => [...goingBack(lane, pathOf), ...tools(lane, pathOf)])
  // A step on several sides would be told once a side; its author wrote it once.
  const told = new Set<string>()
  return [...problems, ...toolOrder(procedure, course.lanes, pathOf)].filter((problem) => {
    const key = `${problem.path.join('/')} ${problem.what}`
    return told.has(key) ? false : (told.add(key), true)
  })
}

function goingBack(lane: Lane, pathOf: (step: string, ...rest: string[]) => Path): Problem[] {
  return lane.steps.flatMap(({ step, block }, index) => {
    const target = (from: string, ...key: string[]): Problem[] => {
      const found = lane.steps.findIndex((other) => other.step.id === from)
      if (found < 0 || found > index) {
        return [
          {
            path: pathOf(step.id, ...key),
            what: `Step "${step.id}" goes back to "${from}", which is not an earlier step of the same lane.`,
            mend: 'Name a step that comes before it on the same side, bench or machine.'
          }
        ]
      }
      if (lane.kind !== 'machine' && lane.steps[found]?.block !== block) {
        return [
          {
            path: pathOf(step.id, ...key),
            what: `Step "${step.id}" goes back to "${from}" across a whole-machine step.`,
            mend: 'Name a step that comes after the last whole-machine step.'
          }
        ]
      }
      if (lane.kind === 'machine' && found !== index) {
        return [
          {
            path: pathOf(step.id, ...key),
            what: `The whole-machine step "${step.id}" goes back to another step.`,
            mend: 'A whole-machine step can only repeat itself, because the sides have moved on.'
          }
        ]
      }
      return []
    }
    return [
      ...(step.repeat ? target(step.repeat.from, 'again', 'from') : []),
      ...(step.wait?.late ? target(step.wait.late.redo, 'wait', 'late', 'redo') : [])
    ]
  })
}

function tools(lane: Lane, pathOf: (step: string, ...rest: string[]) => Path): Problem[] {
  const before = holdings(lane)
  const problems: Problem[] = []
  lane.steps.forEach(({ step, block }, index) => {
    const holding = before[index] ?? new Set()
    for (const tool of step.takes) {
      if (!holding.has(tool)) continue
      problems.push({
        path: pathOf(step.id, 'take'),
        what: `Step "${step.id}" takes "${tool}", which its lane already holds.`,
        mend: 'Free it first, or take it out of one of the steps.'
      })
    }
    for (const tool of step.frees) {
      if (holding.has(tool) || step.takes.includes(tool)) continue
      problems.push({
        path: pathOf(step.id, 'free'),
        what: `Step "${step.id}" frees "${tool}", which its lane does not hold.`,
        mend: 'Take it in an earlier step of the same lane.'
      })
    }
    const next = lane.steps[index + 1]
    const after = before[index + 1] ?? new Set()
    const ends = next === undefined || (lane.kind !== 'machine' && next.block !== block) || lane.kind === 'machine'
    if (ends && after.size > 0) {
      problems.push({
        path: pathOf(step.id),
        what: `After step "${step.id}" the lane still holds ${[...after].join(', ')} where every lane stops.`,
        mend: 'Free it before the next whole-machine step or the end.'
      })
    }
    for (const from of [step.repeat?.from, step.wait?.late?.redo]) {
      const back = lane.steps.findIndex((other) => other.step.id === from)
      if (back < 0 || sameSet(before[back] ?? new Set(), after)) continue
      problems.push({
        path: pathOf(step.id),
        what: `Going back from "${step.id}" to "${from}", the lane would not hold the same tools as the first time.`,
        mend: 'Take and free the tool both inside or both outside of the repeated part.'
      })
    }
  })
  return problems
}

/**
 * Lanes that take tools in orders that close a ring can wait for each other for ever. Only between two whole-machine
 * steps: there every lane has put its tools back. Whole-machine steps have nobody beside them.
 */
function toolOrder(
  procedure: Procedure,
  lanes: readonly Lane[],
  pathOf: (step: string, ...rest: string[]) => Path
): Problem[] {
  const taking = lanes.filter(({ kind }) => kind !== 'machine').flatMap(takings)
  const blocks = [...new Set(taking.map(({ block }) => block))]
  return blocks.flatMap((block) => {
    const here = taking.filter((one) => one.block === block)
    const isScarce = (tool: string) => {
      const users = new Set(here.filter(({ takes }) => takes.includes(tool)).map(({ lane }) => lane))
      return users.size > (procedure.tools.find(({ id }) => id === tool)?.count ?? 1)
    }
    return ringsIn(here, isScarce, pathOf)
  })
}

interface Taking {
  readonly lane: string
  readonly block: number
  readonly step: string
  readonly takes: readonly string[]
  readonly holding: readonly string[]
}

function takings(lane: Lane): readonly Taking[] {
  const before = holdings(lane)
  return lane.steps.map(({ step, block }, index) => ({
    lane: lane.id,
    block,
    step: step.id,
    takes: step.takes,
    holding: [...(before[index] ?? [])]
  }))
}

function ringsIn(
  taking: readonly Taking[],
  isScarce: (tool: string) => boolean,
  pathOf: (step: string, ...rest: string[]) => Path
): Problem[] {
  const takenWhileHolding = new Map<string, Set<string>>()
  const leadsTo = (from: string, to: string, seen = new Set<string>()): boolean =>
    [...(takenWhileHolding.get(from) ?? [])].some(
      (tool) => tool === to || (!seen.has(tool) && leadsTo(tool, to, seen.add(tool)))
    )
  const problems: Problem[] = []
  for (const { step, takes, holding } of taking) {
    for (const taken of takes.filter(isScarce)) {
      for (const held of holding.filter((tool) => tool !== taken && isScarce(tool))) {
        if (leadsTo(taken, held)) {
          problems.push({
            path: pathOf(step, 'take'),
            what: `Step "${step}" takes "${taken}" while its lane holds "${held}", and other steps take them the other way round: two lanes could wait for each other for ever.`,
            mend: 'Take the tools in the same order everywhere, or in one step.'
          })
        }
        takenWhileHolding.set(held, (takenWhileHolding.get(held) ?? new Set()).add(taken))
      }
    }
  }
  return problems
}

function sameSet(a: ReadonlySet<string>, b: ReadonlySet<string>): boolean {
  return a.size === b.size && [...a].every((item) => b.has(item))
}
