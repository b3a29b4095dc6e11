import { useStore } from '../use-store.ts'
import type { Call } from '../../core/run/call.ts'
import { callWords } from '../../core/talk/call-words.ts'
import { Symbol } from '../parts/symbol.tsx'
import { useRun, useSurroundings } from '../surroundings.ts'
import { useTold } from './use-told.ts'

/** How many of Sidecall's lines may follow before what was heard leaves the screen. */
const HEARD_STAYS = 3

/** Calls with much text, all of which stands on the screen already: their own lines are not shown a second time. */
const NEEDS_ROOM: ReadonlySet<Call['kind']> = new Set(['caution', 'stopped', 'late'])

/** What is being said now, and what was heard last. */
export function Captions({ call }: { readonly call: Call }) {
  const { app, words } = useSurroundings()
  const { conductor } = useRun()
  const line = useStore(app.speaker.$line)
  const transcript = useStore(conductor.$transcript)
  const told = useTold()
  const last = line?.text ?? transcript.findLast(({ who }) => who === 'sidecall')?.text ?? ''
  const isShown = callWords(told, call, false).lines.some(({ text }) => text === last)
  const said = isShown && NEEDS_ROOM.has(call.kind) ? '' : last
  const heard = transcript.slice(-1 - HEARD_STAYS).findLast(({ who }) => who === 'operator')?.text ?? undefined
  if (said === '' && heard === undefined) return null
  return (
    <p class={isShown && heard === undefined ? 'captions shown-above' : 'captions'}>
      <Symbol name="speech" />
      <span>
        {said} {heard !== undefined && <i>{words.run.heard(heard)}</i>}
      </span>
    </p>
  )
}
