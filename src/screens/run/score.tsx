import { useStore } from '@nanostores/preact'
import { useEffect, useRef } from 'preact/hooks'
import { MACHINE } from '../../core/procedure/procedure.ts'
import { isCalled } from '../../app/lane-rows.ts'
import { SCORE_AHEAD_MS, SCORE_BACK_MS } from '../../app/run-screen.ts'
import { useRun, useWords } from '../surroundings.ts'
import { LaneStave } from './lane-stave.tsx'
import { Notes } from './notes.tsx'

/** The run as a score: a stave for each lane, time from left to right, and where the hands are. */
export function Score() {
  const { $rows, conductor, session } = useRun()
  const words = useWords()
  const rows = useStore($rows)
  const call = useStore(conductor.$call)
  const ref = useRef<HTMLElement | null>(null)
  const { startedAt } = session.$state.get().run

  // Time passes under a fixed now-line: only this one property changes with the ticks.
  useEffect(
    () =>
      conductor.$now.subscribe((now) => {
        const share = (now - startedAt - SCORE_BACK_MS) / (SCORE_BACK_MS + SCORE_AHEAD_MS)
        ref.current?.style.setProperty('--shift', `${(-100 * share).toFixed(3)}%`)
      }),
    [conductor, startedAt]
  )

  return (
    <section
      ref={ref}
      class={`score rows-${Math.min(rows.length, 6)}`}
      aria-label={words.run.lanes}
      data-whole={isCalled(call, MACHINE)}
      data-times={rows.some(({ timer }) => timer !== null)}
    >
      {rows.map((row) => (
        <LaneStave key={row.lane} row={row} whole={isCalled(call, MACHINE)} />
      ))}
      <div class="across" aria-hidden="true">
        <Notes lane={MACHINE} />
        <span class="now-line" />
      </div>
    </section>
  )
}
