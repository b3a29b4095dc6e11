import { useStore } from '../use-store.ts'
import type { RunScreen } from '../../app/run-screen.ts'
import { later } from '../parts/later.tsx'
import { RunContext } from '../surroundings.ts'
import { Alarm } from './alarm.tsx'
import { Call } from './call.tsx'
import { NeedsTap } from './needs-tap.tsx'
import { RunHead } from './run-head.tsx'
import { Score } from './score.tsx'
import { Trouble } from './trouble.tsx'
import './run.css'
import './score.css'
import './call.css'
import './panel.css'

const TouchNote = later(async () => (await import('./touch-note.tsx')).TouchNote)
const Scanner = later(async () => (await import('./scanner.tsx')).Scanner)
const Finished = later(async () => (await import('./finished.tsx')).Finished)

export interface RunProps {
  readonly screen: RunScreen
  readonly needsTap: boolean
}

/** An open run: the score above, the one call below, and over both what must not be missed. */
export function Run({ screen, needsTap }: RunProps) {
  const call = useStore(screen.conductor.$call)
  const isOver = call.kind === 'finished' || call.kind === 'abandoned'
  return (
    <RunContext.Provider value={screen}>
      {isOver ? (
        <Finished ended={call.kind === 'abandoned'} />
      ) : (
        <div class="run">
          <RunHead />
          <Trouble />
          <Score />
          <Call call={call} />
          <TouchNote />
          <Scanner />
          {call.kind === 'alarm' && <Alarm call={call} />}
          {needsTap && <NeedsTap />}
        </div>
      )}
    </RunContext.Provider>
  )
}
