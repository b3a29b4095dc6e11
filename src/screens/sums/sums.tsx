import './sums.css'
import { useStore } from '../use-store.ts'
import type { RulesOffered } from '../../core/sanitizer/shop-rules.ts'
import { Press } from '../parts/press.tsx'
import { useSurroundings } from '../surroundings.ts'
import { JudgeForm } from './judge-form.tsx'
import { MixForm } from './mix-form.tsx'
import { useTexts } from '../texts.ts'
import { sumsWordsEn } from './words.en.ts'

/** The arithmetic of a careful supervisor, for anybody, outside a run. */
export function Sums({ rules }: { readonly rules: RulesOffered | null }) {
  const sums = useTexts('sums', sumsWordsEn)
  const { app, words } = useSurroundings()
  const { units } = useStore(app.$settings)
  return (
    <main class="page">
      <header class="page-head">
        <Press onPress={() => void app.backToChoice()}>{words.back}</Press>
        <h1>{sums.title}</h1>
        <p class="label-first">{words.labelFirst}</p>
      </header>
      {rules === null || rules.shelf.length === 0 ? (
        <p class="state-note" role="alert">
          {sums.noRules}
        </p>
      ) : (
        <>
          <MixForm rules={rules} units={units} />
          <JudgeForm rules={rules} />
        </>
      )}
    </main>
  )
}
