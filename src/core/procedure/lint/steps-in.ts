/** A procedure's steps with their places in the author's file, and the words in them. */
import { LANGUAGES, type Language } from '../../talk/languages.ts'
import { BENCH, MACHINE, type LaneId, type Procedure, type Step, type Text } from '../procedure.ts'

export interface PlacedStep {
  readonly step: Step
  readonly path: readonly (string | number)[]
}

/** In the author's order. */
export function stepsIn({ stages }: Procedure): readonly PlacedStep[] {
  return stages.flatMap(({ steps }, stage) =>
    steps.map((step, index) => ({ step, path: ['stages', stage, 'steps', index] }))
  )
}

/** The lanes of a procedure, each with the steps that are done on it and on the whole machine, in order. */
export function stepsByPlace(procedure: Procedure): readonly (readonly PlacedStep[])[] {
  const all = stepsIn(procedure)
  const lanes: readonly LaneId[] = [...procedure.sides.map(({ id }) => id), BENCH]
  return lanes.map((lane) => all.filter(({ step }) => isOn(step, lane) || step.on.kind === MACHINE))
}

function isOn({ on }: Step, lane: LaneId): boolean {
  return on.kind === 'sides' ? on.sides.includes(lane) : on.kind === lane
}

export interface SpokenText {
  readonly path: readonly (string | number)[]
  readonly language: Language
  readonly text: string
}

/** Every sentence group of a step that Sidecall may say, in each language, its confirming phrase left out. */
export function spokenIn({ step, path }: PlacedStep): readonly SpokenText[] {
  const check = step.check === null ? '' : { 'yes-no': 'ask', reading: 'read', count: 'count' }[step.check.kind]
  const at = (text: Text | null | undefined, ...rest: readonly (string | number)[]): readonly SpokenText[] =>
    LANGUAGES.flatMap((language) => {
      const written = text?.[language] ?? ''
      return written === '' ? [] : [{ path: [...path, ...rest], language, text: written }]
    })
  return [
    ...at(step.say, 'say'),
    ...at(step.more, 'more'),
    ...at(step.why, 'why'),
    ...step.cautions.flatMap(({ hazard, consequence, avoid }, index) => [
      ...at(hazard, 'cautions', index, 'hazard'),
      ...at(consequence, 'cautions', index, 'consequence'),
      ...at(avoid, 'cautions', index, 'avoid')
    ]),
    ...at(step.check?.ask, check, 'question'),
    ...(step.check?.corrections ?? []).flatMap((text, index) => at(text, check, 'if not', index)),
    ...at(step.wait?.late?.say, 'wait', 'late', 'say')
  ]
}

export function wordsIn(text: string): readonly string[] {
  return text.split(/\s+/).filter((word) => word !== '')
}

export function sentencesIn(text: string): readonly string[] {
  return text.split(/(?<=[.!?])\s+(?=[¿¡]?\p{Lu})/u).filter((sentence) => sentence !== '')
}
