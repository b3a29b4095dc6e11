import type { LaneMood, LaneRow } from '../../app/lane-rows.ts'
import { textIn } from '../../core/talk/call-words.ts'
import { Symbol, type SymbolName } from '../parts/symbol.tsx'
import { TimeLeft } from '../parts/time-left.tsx'
import { useRun, useSurroundings } from '../surroundings.ts'
import { Notes } from './notes.tsx'

const SYMBOLS: Readonly<Record<LaneMood, SymbolName>> = {
  hands: 'hand',
  alarm: 'bell',
  waiting: 'wait',
  ready: 'ready',
  stopped: 'stop',
  late: 'stop',
  'at-barrier': 'bars',
  'tool-in-use': 'bars',
  finished: 'tick'
}

export interface LaneStaveProps {
  readonly row: LaneRow
  /** The hands are on the whole machine, and so on every lane. */
  readonly whole: boolean
}

/** One lane: its name and state, its notes, what comes next, and the time left. A touch asks to go there, or why it is here. */
export function LaneStave({ row, whole }: LaneStaveProps) {
  const { app, words } = useSurroundings()
  const { conductor } = useRun()
  const manner = app.manner()
  const name = textIn(row.name, manner)
  const mood = whole && row.mood === 'at-barrier' ? 'hands' : row.mood
  return (
    <button
      type="button"
      class={`stave ${row.called || whole ? 'called' : ''}`}
      data-mood={mood}
      data-length={name.length > 12 ? 'long' : name.length > 7 ? 'middle' : 'short'}
      onClick={(event) => {
        if (event.detail > 0) event.currentTarget.blur()
        void conductor.intend(row.mood === 'hands' ? { type: 'why-here' } : { type: 'lane', lane: row.lane }, 'touch')
      }}
    >
      <span class="stave-name">{name}</span>
      <span class="stave-mood">
        <Symbol name={SYMBOLS[mood]} />
        {words.run.mood(mood)}
      </span>
      <span class="stave-track" aria-hidden="true">
        <Notes lane={row.lane} />
      </span>
      <span class="stave-next">{nextText(row, whole, textIn(row.next, manner), words)}</span>
      <span class="stave-time">
        {row.timer && (
          <>
            {row.timer.kind === 'at-most' && <small>{words.run.atMost}</small>}
            <TimeLeft until={row.timer.until} />
          </>
        )}
      </span>
    </button>
  )
}

function nextText(
  row: LaneRow,
  whole: boolean,
  next: string,
  words: ReturnType<typeof useSurroundings>['words']
): string {
  if (next === '') return words.run.laneOver
  return row.mood === 'hands' || whole ? words.run.then(next) : words.run.next(next)
}
