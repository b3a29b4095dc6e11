import { useStore } from '@nanostores/preact'
import { SCORE_AHEAD_MS, SCORE_BACK_MS } from '../../app/run-screen.ts'
import type { LaneId } from '../../core/procedure/procedure.ts'
import { useRun } from '../surroundings.ts'

const WINDOW_MS = SCORE_BACK_MS + SCORE_AHEAD_MS

/** The notes of one lane, laid out along the whole run; the score shifts them under the now-line. */
export function Notes({ lane }: { readonly lane: LaneId }) {
  const { $score, session } = useRun()
  const { notes } = useStore($score)
  const { startedAt } = session.$state.get().run
  const percent = (ms: number) => `${((100 * ms) / WINDOW_MS).toFixed(3)}%`
  return (
    <span class="notes">
      {notes
        .filter((note) => note.lane === lane)
        .map(({ kind, from, to }) => (
          <span
            key={`${kind} ${from}`}
            class={`note ${kind}`}
            style={{ left: percent(from - startedAt), width: percent(to - from) }}
          />
        ))}
    </span>
  )
}
