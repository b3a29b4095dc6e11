/** What the ears hear goes to the open run, and what came of it back to them. */
import type { ReadableAtom } from 'nanostores'
import type { FewWords } from '../core/talk/few-words.ts'
import type { Talk } from '../core/talk/languages.ts'
import type { Ports } from './ports.ts'
import type { Settings } from './settings.ts'
import type { View } from './view.ts'

export interface Listening {
  /** Null while ears listen that know every word. */
  fewWords(): FewWords | null
}

interface ListeningParts {
  readonly $view: ReadableAtom<View>
  readonly $settings: ReadableAtom<Settings>
  readonly $talk: ReadableAtom<Talk>
}

export function listenFor(
  { ears, practice, fewWords: load }: Pick<Ports, 'ears' | 'practice' | 'fewWords'>,
  { $view, $settings, $talk }: ListeningParts
): Listening {
  let fewWords: FewWords | null = null
  const attend = () => ears.attend($settings.get().attention === 'word' ? $talk.get().vocabulary.attention : null)
  $settings.subscribe(attend)
  $talk.listen(attend)
  ears.onHeard((heard) => {
    const view = $view.get()
    if (view.kind !== 'run') return
    const { $state } = view.session
    const known = $state.get().events.length
    const words = heard.alternatives.map((one) => one.words)
    void view.conductor.hearWords(words, 'voice', heard.unsure).then(async () => {
      if (ears.which() === 'embedded') await (await practice()).cameOf(words[0] ?? '', $state.get().events, known)
    })
  })
  ears.onMissed((closest) => {
    const view = $view.get()
    if (view.kind === 'run') void view.conductor.almostHeard(closest)
  })
  ears.onState(() => {
    if (fewWords === null && ears.which() === 'embedded') void load().then((loaded) => (fewWords = loaded))
  })
  return { fewWords: () => fewWords }
}
