import type { ToHear } from '../../app/workshop/hearing.ts'
import { listAt, wordsAt } from '../../core/procedure/edit/draft-values.ts'
import { saidOfStep } from '../../core/procedure/edit/said-of-step.ts'
import { Press } from '../parts/press.tsx'
import { useStore } from '../use-store.ts'
import { useSurroundings } from '../surroundings.ts'
import { useWorkshopWords } from './use-workshop-words.ts'
import { stepPath, useDesk } from './workshop-context.ts'

/** Reads it aloud in each of its languages; once more ends it. */
export function HearButtons({ of }: { readonly of: 'step' | 'stage' | 'all' }) {
  const { workshop, value, languages, chosen } = useDesk()
  const { app } = useSurroundings()
  const words = useWorkshopWords()
  const saying = useStore(workshop.hearing.$saying)
  const { units } = useStore(app.$settings)
  const first = languages[0] ?? 'en'
  const stages = of === 'all' ? listAt(value, ['stages']).map((_, stage) => stage) : [chosen.stage]
  const paths =
    of === 'step'
      ? [stepPath(chosen)]
      : stages.flatMap((stage) => listAt(value, ['stages', stage, 'steps']).map((_, step) => stepPath({ stage, step })))
  const toHear = (language: string): readonly ToHear[] =>
    paths.map((path) => ({
      key: wordsAt(value, [...path, 'step']),
      language,
      units,
      said: saidOfStep(value, path, language, first)
    }))
  const label = { step: words.hearStep, stage: words.hearStage, all: words.hearAll }[of]
  if (saying !== null) {
    return (
      <div class="draft-row">
        <Press onPress={workshop.hearing.stop}>{words.quiet}</Press>
        <span role="status">{saying}</span>
      </div>
    )
  }
  return (
    <div class="draft-row">
      {languages.map((language) => (
        <Press key={language} onPress={() => workshop.hearing.hear(toHear(language))}>
          {languages.length === 1 ? label : `${label} (${words.language(language)})`}
        </Press>
      ))}
    </div>
  )
}
