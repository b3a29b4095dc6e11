/** A procedure laid out in lanes: what each lane does, in order, and where the whole machine stops them all. */
import type { Language } from '../talk/languages.ts'
import { BENCH, MACHINE, type LaneId, type Procedure, type Step, type Text } from './procedure.ts'

export interface LaneStep {
  readonly step: Step
  /** Index of the step's stage in the procedure. */
  readonly stage: number
  /** How many whole-machine steps come before it; on the machine lane this is its own index. */
  readonly block: number
}

export interface Lane {
  readonly id: LaneId
  readonly kind: 'side' | 'bench' | 'machine'
  readonly name: Text
  readonly steps: readonly LaneStep[]
}

export interface Course {
  readonly procedure: Procedure
  /** Sides in the procedure's order, then bench, then machine; bench and machine only when they have steps. */
  readonly lanes: readonly Lane[]
}

const BENCH_NAME: Readonly<Record<Language, string>> = { en: 'Bench', es: 'Mesa' }
const MACHINE_NAME: Readonly<Record<Language, string>> = { en: 'Whole machine', es: 'Toda la máquina' }

function namedFor(names: Text, languages: readonly string[]): Text {
  return Object.fromEntries(languages.map((language) => [language, names[language] ?? names['en'] ?? '']))
}

/** Lays a checked procedure out in lanes. A step for several sides appears once on each. */
export function layOut(procedure: Procedure): Course {
  const steps = new Map<LaneId, LaneStep[]>()
  for (const side of procedure.sides) steps.set(side.id, [])
  steps.set(BENCH, [])
  steps.set(MACHINE, [])
  let block = 0
  procedure.stages.forEach((stage, index) => {
    for (const step of stage.steps) {
      const lanes = step.on.kind === 'sides' ? step.on.sides : [step.on.kind === 'bench' ? BENCH : MACHINE]
      for (const lane of lanes) steps.get(lane)?.push({ step, stage: index, block })
      if (step.on.kind === 'machine') block += 1
    }
  })
  const lanes: Lane[] = procedure.sides.map((side) => ({
    id: side.id,
    kind: 'side',
    name: side.name,
    steps: steps.get(side.id) ?? []
  }))
  const shared: Lane[] = [
    { id: BENCH, kind: 'bench', name: namedFor(BENCH_NAME, procedure.languages), steps: steps.get(BENCH) ?? [] },
    { id: MACHINE, kind: 'machine', name: namedFor(MACHINE_NAME, procedure.languages), steps: steps.get(MACHINE) ?? [] }
  ]
  return { procedure, lanes: [...lanes, ...shared.filter((lane) => lane.steps.length > 0)] }
}

export function laneOf(course: Course, id: LaneId): Lane | undefined {
  return course.lanes.find((lane) => lane.id === id)
}
