import type { View } from '../../app/app.ts'
import { textIn } from '../../core/talk/call-words.ts'
import { Hold } from '../parts/hold.tsx'
import { Press } from '../parts/press.tsx'
import { Symbol } from '../parts/symbol.tsx'
import { useSurroundings } from '../surroundings.ts'
import { useTexts } from '../texts.ts'
import { damagedWordsEn } from './words.en.ts'

/** Entries of a run cannot be read: what that means, and the ways from here. No voice here, and nothing by chance. */
export function Damaged({ view }: { readonly view: Extract<View, { kind: 'damaged' }> }) {
  const damaged = useTexts('damaged', damagedWordsEn)
  const { app } = useSurroundings()
  return (
    <main class="page damaged">
      <header class="page-head">
        <p class="brand">{textIn(view.course.procedure.title, app.manner())}</p>
        <h1>
          <Symbol name="cross" />
          {damaged.title}
        </h1>
      </header>
      <div class="state-note" role="alert">
        <p>{damaged.lost(view.lost)}</p>
        <p>{view.server === 'server-away' ? damaged.away : damaged.asked}</p>
      </div>
      <p>{damaged.whatThen}</p>
      <ul>
        {damaged.consequences.map((text) => (
          <li key={text}>{text}</li>
        ))}
      </ul>
      <div class="ways-on">
        <Press size="work" onPress={() => void app.resume(view.run)}>
          {damaged.again}
        </Press>
        <Press size="work" onPress={() => void app.backToChoice()}>
          {damaged.leave}
        </Press>
        <Hold onHeld={() => void app.goOnWithout()}>{damaged.hold}</Hold>
      </div>
    </main>
  )
}
