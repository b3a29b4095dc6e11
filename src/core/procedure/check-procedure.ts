/** What a well-shaped procedure can still get wrong. Each rule gives a problem with its place in the author's file. */
import { checkChemicals } from './check-chemicals.ts'
import { checkCounts } from './check-counts.ts'
import { checkLanes } from './check-lanes.ts'
import { checkStep } from './check-step.ts'
import { checkWords } from './check-words.ts'
import type { CheckName, Problem } from './problem.ts'
import { BENCH, MACHINE, type Procedure } from './procedure.ts'

export function checkProcedure(procedure: Procedure): Problem[] {
  return [
    ...by('names', [...repeatedIds(procedure), ...reservedSides(procedure), ...sideNames(procedure)]),
    ...by(
      'step',
      procedure.stages.flatMap((stage, stageIndex) =>
        stage.steps.flatMap((step, stepIndex) => checkStep(procedure, step, ['stages', stageIndex, 'steps', stepIndex]))
      )
    ),
    ...by('order', checkLanes(procedure)),
    ...by('chemicals', checkChemicals(procedure)),
    ...by('parts', [...checkCounts(procedure), ...wearWithoutLimit(procedure)]),
    ...by('translation', checkWords(procedure))
  ]
}

function by(check: CheckName, problems: readonly Problem[]): readonly Problem[] {
  return problems.map((problem) => ({ ...problem, check }))
}

type Path = readonly (string | number)[]

function repeatedIds(procedure: Procedure): Problem[] {
  const { sides, tools, parts, supplies, solutions } = procedure
  const lists = Object.entries({ sides, tools, parts, supplies, solutions }).map(([list, things]) =>
    things.map((thing, index) => ({ id: thing.id, path: [list, index, 'id'] }))
  )
  const steps = procedure.stages.flatMap((stage, stageIndex) =>
    stage.steps.map((step, stepIndex) => ({ id: step.id, path: ['stages', stageIndex, 'steps', stepIndex, 'step'] }))
  )
  return [...lists, steps].flatMap((list) =>
    list
      .filter(({ id }, index) => list.findIndex((other) => other.id === id) < index)
      .map(({ id, path }) => ({ path, what: `The id "${id}" is used twice.`, mend: 'Give one of them another id.' }))
  )
}

function wearWithoutLimit({ parts }: Procedure): Problem[] {
  return parts.flatMap(({ id, wear }, index) =>
    wear && wear.days === null && wear.runs === null
      ? [
          {
            path: ['parts', index, 'replace after'],
            what: `It is not said after how long "${id}" is worn.`,
            mend: 'Write days, runs or both.'
          }
        ]
      : []
  )
}

function reservedSides(procedure: Procedure): Problem[] {
  return procedure.sides.flatMap((side, index) =>
    side.id === BENCH || side.id === MACHINE
      ? [
          {
            path: ['sides', index, 'id'],
            what: `"${side.id}" cannot be the id of a side: it is the name of a shared place.`,
            mend: 'Choose another id.'
          }
        ]
      : []
  )
}

/** Sides are called by name, so a name must mean one side only. */
function sideNames(procedure: Procedure): Problem[] {
  return procedure.languages.flatMap((language) => {
    const names = procedure.sides.map(({ name }) => name[language]?.toLowerCase())
    return names.flatMap((name, index) => {
      if (name === undefined || names.indexOf(name) === index) return []
      const path: Path = ['sides', index, 'name']
      return [{ path, what: `Two sides have the name "${name}".`, mend: 'Give each side a name of its own.' }]
    })
  })
}
