/** Chemicals that give off a poisonous gas together: they may not follow each other without a full rinse between. */
import { chemicalClashes, type ChemicalEvent, type ChemicalFamily, type Gas } from '../sanitizer/chemical-order.ts'
import { layOut, type Course, type Lane, type LaneStep } from './course.ts'
import { holdings } from './holdings.ts'
import { pathOfStep } from './path-of-step.ts'
import { says, type Patterns } from './lint/reading.ts'
import type { Problem } from './problem.ts'
import type { Procedure, Step } from './procedure.ts'

/** Something chemicals can meet in, with all that happens to it in the author's order. */
interface Vessel {
  readonly name: string
  readonly steps: readonly Step[]
}

export function checkChemicals(procedure: Procedure): Problem[] {
  const course = layOut(procedure)
  const families = new Map(procedure.solutions.map(({ id, chemical }) => [id, chemical ?? 'other']))
  const told = new Set<string>()
  const clashes = [...places(course), ...tools(course)].flatMap((vessel) =>
    chemicalClashes(
      vessel.steps.map((step) => eventOf(step, families)),
      goingBack(vessel.steps)
    ).flatMap((clash) => {
      // A step on several sides would be told once a side; its author wrote it once.
      const pair = `${clash.first} ${clash.second}`
      return told.has(pair) ? [] : (told.add(pair), [clashProblem(procedure, vessel, clash)])
    })
  )
  return [...clashes, ...neverUsed(procedure), ...namedOtherwise(procedure)]
}

/**
 * Each side and the bench, to all of which happens what happens on the whole machine; and what only whole-machine steps
 * touch, such as a sink.
 */
function places({ procedure, lanes }: Course): Vessel[] {
  const order = new Map(procedure.stages.flatMap(({ steps }) => steps).map((step, index) => [step, index]))
  const inOrder = (steps: readonly LaneStep[]) =>
    steps.map(({ step }) => step).toSorted((one, other) => (order.get(one) ?? 0) - (order.get(other) ?? 0))
  const machine = lanes.find(({ kind }) => kind === 'machine')?.steps ?? []
  return lanes.map((lane) => ({
    name: laneName(lane, procedure),
    steps: lane.kind === 'machine' ? inOrder(machine) : inOrder([...lane.steps, ...machine])
  }))
}

/** A pail or a brush carries a chemical from lane to lane. Lanes that work at the same time are taken as they are written. */
function tools({ procedure, lanes }: Course): Vessel[] {
  const held = lanes.flatMap((lane) => {
    const before = holdings(lane)
    return lane.steps.map(({ step }, index) => ({ step, tools: new Set([...(before[index] ?? []), ...step.takes]) }))
  })
  return procedure.tools.map((tool) => ({
    name: tool.name[procedure.languages[0] ?? 'en'] ?? tool.id,
    steps: procedure.stages
      .flatMap(({ steps }) => steps)
      .filter((step) => held.some((one) => one.step === step && one.tools.has(tool.id)))
  }))
}

function eventOf({ id, chemistry }: Step, families: ReadonlyMap<string, ChemicalFamily>): ChemicalEvent<string> {
  if (chemistry?.kind !== 'use') return chemistry ?? { kind: 'nothing' }
  return { kind: 'use', families: chemistry.solutions.map((solution) => families.get(solution) ?? 'other'), at: id }
}

function goingBack(steps: readonly Step[]): { from: number; to: number }[] {
  return steps.flatMap(({ repeat, wait }, from) =>
    [repeat?.from, wait?.late?.redo].flatMap((target) => {
      const to = steps.findIndex(({ id }) => id === target)
      return to < 0 ? [] : [{ from, to }]
    })
  )
}

const GASES: Readonly<Record<Gas, string>> = { chlorine: 'chlorine gas', chloramine: 'chloramine gas' }

function clashProblem(
  procedure: Procedure,
  vessel: Vessel,
  { gas, first, second }: { readonly gas: Gas; readonly first: string; readonly second: string }
): Problem {
  const meet = first === second ? 'brings two products together' : `brings its product onto that of step "${first}"`
  return {
    path: pathOfStep(procedure, second, 'use'),
    what: `Step "${second}" ${meet} (${vessel.name}) without a full rinse between: they give off ${GASES[gas]}, which can kill.`,
    mend: 'Rinse everything that was touched with drinking water between them, and write "rinse: full" on the step that ends the rinse.'
  }
}

/** A dangerous product that no step uses would pass every check. */
function neverUsed(procedure: Procedure): Problem[] {
  const used = new Set(
    procedure.stages.flatMap(({ steps }) =>
      steps.flatMap(({ chemistry }) => (chemistry?.kind === 'use' ? chemistry.solutions : []))
    )
  )
  return procedure.solutions.flatMap(({ id, chemical }, index) =>
    chemical === undefined || chemical === 'other' || used.has(id)
      ? []
      : [
          {
            path: ['solutions', index, 'chemical'],
            what: `No step says that it uses "${id}", so nobody can check what it meets.`,
            mend: `Write use: [${id}] on each step that brings it onto a side, a part or into a sink.`
          }
        ]
  )
}

/** What a name gives away. "Chlorine-free", "no acid" and "sin cloro" give nothing away. */
const NAMES: readonly (readonly [ChemicalFamily, Patterns])[] = [
  [
    'hypochlorite',
    {
      en: /(?<!\b(?:no|non|without)[ -])\b(?:bleach|hypochlorite|chlorine|chlorinated)\b(?!-free| free)/i,
      es: /(?<!(?<!\p{L})(?:sin|libre de|no) )(?<!\p{L})(?:cloro|hipoclorito|lejía|lavandina|clorad[oa])(?!\p{L})/iu
    }
  ],
  [
    'acid',
    {
      en: /(?<!\b(?:no|non|without)[ -])\b(?:acid|vinegar|descaler|delimer|iodophor)\b(?!-free| free)/i,
      es: /(?<!(?<!\p{L})(?:sin|libre de|no) )(?<!\p{L})(?:ácid[oa]|vinagre|desincrustante|descalcificador|yodóforo)(?!\p{L})/iu
    }
  ],
  [
    'ammonia',
    {
      en: /(?<!\b(?:no|non|without)[ -])\bammonia\b(?!-free| free)/i,
      es: /(?<!(?<!\p{L})(?:sin|libre de|no) )(?<!\p{L})amon[ií]aco(?!\p{L})/iu
    }
  ]
]

function namedOtherwise(procedure: Procedure): Problem[] {
  return procedure.solutions.flatMap(({ id, name, chemical }, index) => {
    const [family] = NAMES.find(([, pattern]) => says(name, pattern)) ?? []
    return family === undefined || chemical === undefined || chemical === family
      ? []
      : [
          {
            path: ['solutions', index, 'chemical'],
            what: `The name of "${id}" speaks of ${family}, and its chemical is ${chemical}.`,
            mend: `Write chemical: ${family}, or a name that says what it is.`
          }
        ]
  })
}

function laneName(lane: Lane, { languages }: Procedure): string {
  return lane.name[languages[0] ?? 'en'] ?? lane.id
}
