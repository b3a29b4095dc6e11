import { useStore } from '../use-store.ts'
import { useLayoutEffect, useRef } from 'preact/hooks'
import { SCORE_AHEAD_MS, SCORE_BACK_MS } from '../../app/run-screen.ts'
import type { LaneId } from '../../core/procedure/procedure.ts'
import { useRun } from '../surroundings.ts'

const WINDOW_MS = SCORE_BACK_MS + SCORE_AHEAD_MS
const percent = (ms: number) => `${((100 * ms) / WINDOW_MS).toFixed(3)}%`

/** The notes of one lane. */
export function Notes({ lane }: { readonly lane: LaneId }) {
  const { $notes, session } = useRun()
  const notes = useStore($notes)
  const { startedAt } = session.$state.get().run
  return (
    <span ref={useDrift()} class="notes">
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

/** Where everything will probably be complete. */
export function FinishLine() {
  const { $finish, session } = useRun()
  const finish = useStore($finish)
  return (
    <span ref={useDrift()} class="notes">
      {finish !== null && (
        <span class="finish-line" style={{ left: percent(finish - session.$state.get().run.startedAt) }} />
      )}
    </span>
  )
}

/** Lays something out along the whole run and shifts it under the now-line as time passes. */
function useDrift() {
  const { session, conductor } = useRun()
  const { startedAt } = session.$state.get().run
  const ref = useRef<HTMLSpanElement | null>(null)
  // Past Preact on purpose: with every tick only this one style changes.
  useLayoutEffect(
    () =>
      conductor.$now.subscribe((now) => {
        if (ref.current) ref.current.style.transform = `translateX(${percent(startedAt + SCORE_BACK_MS - now)})`
      }),
    [conductor, startedAt]
  )
  return ref
}
