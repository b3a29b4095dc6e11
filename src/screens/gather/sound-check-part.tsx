import { useEffect } from 'preact/hooks'
import type { SoundCheck } from '../../app/sound-check.ts'
import { Press } from '../parts/press.tsx'
import { useStore } from '../use-store.ts'
import { useGatherWords } from './use-gather-words.ts'

/** Loudspeaker and microphone, tried before they are needed. */
export function SoundCheckPart({ check }: { readonly check: SoundCheck }) {
  const { soundCheck: words } = useGatherWords()
  const state = useStore(check.$state)
  useEffect(() => check.end, [check])
  return (
    <div class="sound-check">
      <Press onPress={() => check.begin()}>{words.begin}</Press>
      <p role="status">{words.state(state)}</p>
    </div>
  )
}
