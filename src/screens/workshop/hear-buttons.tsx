import type { ToHear } from '../../app/workshop/hearing.ts'
import { listAt, wordsAt, wordsIn } from '../../core/procedure/edit/draft-values.ts'
import type { Path } from '../../core/procedure/edit/edit.ts'
import { inUnits } from '../../core/talk/quantities.ts'
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
      texts: spokenOf(value, path)
        .map((at) => wordsIn(value, at, language, first))
        .map((text) => inUnits(text, units))
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

/** What the voice says of a step, in the order in which it says it. */
function spokenOf(value: unknown, path: Path): readonly Path[] {
  const cautions = listAt(value, [...path, 'cautions']).flatMap((_, at) =>
    ['hazard', 'consequence', 'avoid'].map((key) => [...path, 'cautions', at, key])
  )
  const questions = ['ask', 'read', 'count'].map((key) => [...path, key, 'question'])
  return [...cautions, [...path, 'say'], [...path, 'more'], [...path, 'why'], ...questions]
}
