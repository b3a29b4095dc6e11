/** The same procedure for a machine with more or fewer sides: its own, taken over and over until there are enough. */
import type { Procedure, Side, Step } from '../../src/core/procedure/procedure.ts'

export function withSides(procedure: Procedure, count: number): Procedure {
  const sides = Array.from({ length: count }, (_, index) => procedure.sides[index] ?? furtherSide(procedure, index))
  /** What a side does is what the side that it is taken from does. */
  const likeness = (index: number) => procedure.sides[index % procedure.sides.length]?.id
  const stepFor = (step: Step): readonly Step[] => {
    if (step.on.kind !== 'sides') return [step]
    const { sides: own } = step.on
    const taken = sides.filter((_, index) => own.includes(likeness(index) ?? '')).map(({ id }) => id)
    return taken.length === 0 ? [] : [{ ...step, on: { kind: 'sides', sides: taken } }]
  }
  const stages = procedure.stages.map((stage) => ({ ...stage, steps: stage.steps.flatMap(stepFor) }))
  return { ...procedure, sides, stages }
}

function furtherSide({ sides, languages }: Procedure, index: number): Side {
  const taken = new Set(sides.flatMap(({ id, name }) => [id, ...Object.values(name).map((word) => word.toLowerCase())]))
  let id = `side-${index + 1}`
  while (taken.has(id)) id = `${id}-more`
  return { id, name: Object.fromEntries(languages.map((language) => [language, id])) }
}
