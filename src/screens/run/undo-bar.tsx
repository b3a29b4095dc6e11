import { useStore } from '../use-store.ts'
import { progressNamed } from '../../core/talk/call-words.ts'
import { Press } from '../parts/press.tsx'
import { Symbol } from '../parts/symbol.tsx'
import { useRun } from '../surroundings.ts'
import { useTold } from './use-told.ts'
import { usePanelWords } from './use-panel-words.ts'

/** How long what was done can be taken back with one touch, ms; by voice, key and "Other" always. */
const UNDO_MS = 15_000

/** Names what was done last for a while, to be taken back if it was not meant. */
export function UndoBar() {
  const { conductor, isSettled } = useRun()
  const told = useTold()
  const words = usePanelWords()
  const now = useStore(conductor.$now)
  const last = told.run.progress.at(-1)
  if (!last || now - last.at > UNDO_MS || last.device !== told.device) return null
  const named = progressNamed(told, last)
  if (!named) return null
  return (
    <Press
      size="work"
      onPress={() => {
        if (isSettled()) void conductor.intend({ type: 'take-back' }, 'touch')
      }}
    >
      <span class="undo">
        <Symbol name="back" />
        <span class="undo-what">{words.undo(named.name, named.what)}</span>
      </span>
    </Press>
  )
}
