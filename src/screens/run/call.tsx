import { useStore } from '../use-store.ts'
import type { Call as CallNow } from '../../core/run/call.ts'
import { later } from '../parts/later.tsx'
import { useRun } from '../surroundings.ts'
import { Actions } from './actions.tsx'
import { AskingText, CallText } from './call-text.tsx'
import { Captions } from './captions.tsx'

const PanelView = later(async () => (await import('./panel-view.tsx')).PanelView)

const UndoBar = later(async () => (await import('./undo-bar.tsx')).UndoBar)

/** Calls that leave room for more than their own words. */
const CALM: ReadonlySet<CallNow['kind']> = new Set(['step', 'all-waiting', 'stand-by'])

/** The one thing that matters now, what answers it, and the words being spoken; or a panel over them. */
export function Call({ call }: { readonly call: CallNow }) {
  const { conductor, panels } = useRun()
  const panel = useStore(panels.$panel)
  const asking = useStore(conductor.$asking)
  // While somebody wipes the screen the call stays to be read.
  if (panel.kind !== 'none' && panel.kind !== 'wipe') {
    return (
      <main class="call-area">
        <PanelView panel={panel} call={call} />
      </main>
    )
  }
  return (
    <main class="call-area" data-call={call.kind}>
      <div class="call-words">
        {/* The words of an open question go before the call; an alarm goes before everything. */}
        {asking !== null && call.kind !== 'alarm' ? <AskingText /> : <CallText call={call} />}
        <div class="call-foot">
          <Captions call={call} />
          {asking === null && CALM.has(call.kind) && <UndoBar />}
        </div>
      </div>
      <Actions call={call} asking={asking} />
      {panel.kind === 'wipe' && <PanelView panel={panel} call={call} />}
    </main>
  )
}
