import { useStore } from '@nanostores/preact'
import type { Call } from '../../core/run/call.ts'
import { Symbol } from '../parts/symbol.tsx'
import { useRun, useSurroundings } from '../surroundings.ts'

/** How many of Sidecall's lines may follow before what was heard leaves the screen. */
const HEARD_STAYS = 3

/** What is being said now, and what was heard last. */
export function Captions({ call }: { readonly call: Call }) {
  const { app, words } = useSurroundings()
  const { conductor } = useRun()
  const line = useStore(app.speaker.$line)
  const transcript = useStore(conductor.$transcript)
  // A caution stands above in full already, and needs the room.
  const isShown = call.kind === 'caution' && line?.priority === 'caution'
  const said = isShown ? '' : (line?.text ?? transcript.findLast(({ who }) => who === 'sidecall')?.text ?? '')
  const heard = transcript.slice(-1 - HEARD_STAYS).findLast(({ who }) => who === 'operator')?.text
  if (said === '' && heard === undefined) return null
  return (
    <p class="captions">
      <Symbol name="speech" />
      <span>
        {said} {heard !== undefined && <i>{words.run.heard(heard)}</i>}
      </span>
    </p>
  )
}
