/** Every text of a procedure's steps that an operator can hear, with the place it stands in. */
import type { Procedure, Step, Text } from '../../src/core/procedure/procedure.ts'
import { stepsOf } from './shipped-files.ts'

export interface StepText {
  readonly step: string
  readonly place: 'say' | 'more' | 'why' | 'confirm' | 'caution' | 'question' | 'correction' | 'source' | 'late'
  readonly text: string
}

export function stepTexts(procedure: Procedure, language = 'en'): StepText[] {
  return stepsOf(procedure).flatMap((step) =>
    written(step).flatMap(({ place, words }) => {
      const text = words?.[language]
      return text === undefined ? [] : [{ step: step.id, place, text }]
    })
  )
}

function written(step: Step): { place: StepText['place']; words: Text | null | undefined }[] {
  return [
    { place: 'say', words: step.say },
    { place: 'more', words: step.more },
    { place: 'why', words: step.why },
    { place: 'confirm', words: step.confirm },
    ...step.cautions.flatMap(({ hazard, consequence, avoid }) =>
      [hazard, consequence, avoid].map((words) => ({ place: 'caution' as const, words }))
    ),
    { place: 'question', words: step.check?.ask },
    ...(step.check?.corrections ?? []).map((words) => ({ place: 'correction' as const, words })),
    { place: 'source', words: step.wait?.source },
    { place: 'source', words: step.check?.kind === 'reading' ? step.check.source : null },
    { place: 'late', words: step.wait?.late?.say }
  ]
}
