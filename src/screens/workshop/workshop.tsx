import './workshop.css'
import { useStore } from '../use-store.ts'
import type { Workshop } from '../../app/workshop/workshop.ts'
import { Press } from '../parts/press.tsx'
import { useSurroundings } from '../surroundings.ts'
import { Editor } from './editor.tsx'
import { ProcedureList } from './procedure-list.tsx'
import { useWorkshopWords } from './use-workshop-words.ts'
import { VersionsView } from './versions-view.tsx'

/** Where a supervisor writes, checks, hears, tries and publishes procedures. */
export function WorkshopScreen({ workshop }: { readonly workshop: Workshop }) {
  const { app, words } = useSurroundings()
  const texts = useWorkshopWords()
  const place = useStore(workshop.$place)
  if (place.kind === 'draft') {
    return (
      <main class="page workshop wide">
        <Editor key={place.editor.id} workshop={workshop} editor={place.editor} published={place.published} />
      </main>
    )
  }
  return (
    <main class="page workshop">
      <header class="page-head">
        {place.kind === 'versions' ? (
          <Press onPress={() => void workshop.list()}>{texts.title}</Press>
        ) : (
          <Press onPress={() => void app.backToChoice()}>{words.back}</Press>
        )}
        {place.kind !== 'versions' && <h1>{texts.title}</h1>}
      </header>
      {place.kind === 'looking' && (
        <p class="state-note" role="status">
          {texts.looking}
        </p>
      )}
      {place.kind === 'list' && <ProcedureList workshop={workshop} list={place} />}
      {place.kind === 'versions' && <VersionsView key={place.id} workshop={workshop} shown={place} />}
    </main>
  )
}
