import { useStore } from '../use-store.ts'
import { Press } from '../parts/press.tsx'
import { useSurroundings } from '../surroundings.ts'
import { useChooseWords } from './use-choose-words.ts'

/** Whether this device starts without the server, and the newer version of the page, when there is one. */
export function KeptCopy() {
  const choose = useChooseWords()
  const { updates } = useSurroundings()
  const state = useStore(updates.$state)
  switch (state.kind) {
    case 'unknown':
      return null
    case 'absent':
      return <p class="state-note">{choose.needsServer(state.reason)}</p>
    case 'ready':
      return <p class="starts-alone">{choose.startsAlone}</p>
    case 'update-waiting':
    case 'update-held-back':
      return (
        <div class="state-note" role="status">
          <p>{state.kind === 'update-waiting' ? choose.newer : choose.newerHeldBack}</p>
          <Press onPress={updates.take}>{choose.takeNewer}</Press>
        </div>
      )
  }
}
