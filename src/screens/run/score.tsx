import { useStore } from '../use-store.ts'
import { MACHINE } from '../../core/procedure/procedure.ts'
import { isCalled } from '../../app/lane-rows.ts'
import { useRun, useWords } from '../surroundings.ts'
import { LaneStave } from './lane-stave.tsx'
import { FinishLine, Notes } from './notes.tsx'

/** The run as a score: a stave for each lane, time from left to right, and where the hands are. */
export function Score() {
  const { $rows, conductor } = useRun()
  const words = useWords()
  const rows = useStore($rows)
  const call = useStore(conductor.$call)

  return (
    <section
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
        <FinishLine />
        <span class="now-line" />
      </div>
    </section>
  )
}
