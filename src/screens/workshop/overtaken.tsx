import { useEffect, useState } from 'preact/hooks'
import { shopDateTime } from '../../app/shop-time.ts'
import type { Draft } from '../../app/workshop/workshop.ts'
import type { Procedure } from '../../core/procedure/procedure.ts'
import { Press } from '../parts/press.tsx'
import { useSurroundings } from '../surroundings.ts'
import { useLanguage } from '../texts.ts'
import { DifferenceView } from './difference-view.tsx'
import { useWorkshopWords } from './use-workshop-words.ts'
import { useDesk } from './workshop-context.ts'

/** Two people wrote at one draft: both texts are there, and one of them is chosen. */
export function Overtaken({ theirs }: { readonly theirs: Draft | null }) {
  const { editor, draft, workshop } = useDesk()
  const { zone } = useSurroundings()
  const language = useLanguage()
  const words = useWorkshopWords()
  const [other, setOther] = useState<Procedure | null>(null)
  const text = theirs?.text
  useEffect(() => {
    let isHere = true
    if (text !== undefined) void workshop.read(text).then((found) => (isHere ? setOther(found) : undefined))
    return () => {
      isHere = false
    }
  }, [text, workshop])
  const mine = draft.read?.checked.kind === 'sound' ? draft.read.checked.procedure : null
  return (
    <section class="state-note draft-overtaken" role="alert">
      <h2>{words.overtaken.title}</h2>
      <p>
        {theirs ? words.overtaken.theirs(theirs.by, shopDateTime(theirs.at, zone, language)) : words.overtaken.gone}
      </p>
      <div class="draft-row">
        <Press onPress={() => void editor.settle('mine')}>
          {theirs ? words.overtaken.mine : words.overtaken.keepMine}
        </Press>
        {theirs && <Press onPress={() => void editor.settle('theirs')}>{words.overtaken.takeTheirs}</Press>}
      </div>
      {theirs && (
        <details open>
          <summary>{words.overtaken.left}</summary>
          {mine && other ? <DifferenceView before={mine} after={other} /> : <pre class="draft-raw">{theirs.text}</pre>}
        </details>
      )}
    </section>
  )
}
