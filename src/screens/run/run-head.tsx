import { useStore } from '../use-store.ts'
import { handsOf } from '../../core/run/run.ts'
import { timeOfDay } from '../../core/talk/time-of-day.ts'
import { useRun, useSurroundings } from '../surroundings.ts'
import { GuardStrip } from './guard-strip.tsx'

/** Who is at work, when it will probably be complete, and what watches over it. */
export function RunHead() {
  return (
    <header class="run-head">
      <ReadyBy />
      <GuardStrip />
    </header>
  )
}

/** Stands large: it is what is asked most from across the room. A touch has it said. */
function ReadyBy() {
  const { session, conductor, $finish } = useRun()
  const { app, words, zone } = useSurroundings()
  const { run } = useStore(session.$state)
  const finish = useStore($finish)
  return (
    <button
      type="button"
      class="ready-by"
      onClick={(event) => {
        if (event.detail > 0) event.currentTarget.blur()
        void conductor.intend({ type: 'ready-when' }, 'touch')
      }}
    >
      <span class="operator-name">{handsOf(run, session.device).name}</span>
      {finish !== null && (
        <span>
          {words.run.ready} <b>{timeOfDay(finish, run.from?.zone ?? zone, app.manner().language)}</b>
        </span>
      )}
    </button>
  )
}
