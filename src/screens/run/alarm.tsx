import type { Call } from '../../core/run/call.ts'
import { laneName } from '../../core/talk/call-words.ts'
import { Symbol } from '../parts/symbol.tsx'
import { TimeSince } from '../parts/time-left.tsx'
import { useRun, useWords } from '../surroundings.ts'
import { useTold } from './use-told.ts'

/** A wait is over: the whole screen says so until somebody answers. */
export function Alarm({ call }: { readonly call: Extract<Call, { kind: 'alarm' }> }) {
  const { conductor, isSettled } = useRun()
  const words = useWords()
  const { course, manner } = useTold()
  const name = laneName(course, call.lane, manner)
  return (
    <button
      type="button"
      class="alarm"
      onClick={() => {
        // Any intent answers an alarm; a touch that was on its way to a button before must not.
        if (isSettled()) void conductor.intend({ type: 'what-now' }, 'touch')
      }}
    >
      <span class="alarm-frame" aria-hidden="true" />
      <Symbol name="bell" />
      <span class="alarm-words" role="alert">
        <span class="alarm-lane" style={{ '--letters': name.length }}>
          {name}
        </span>
        <span class="alarm-wait">
          {manner.words.alarm(name, manner.words.wait(call.waiting.kind)).replace(`${name}. `, '')}
        </span>
      </span>
      <span class="alarm-ago">
        <TimeSince since={call.waiting.due} /> {words.alarm.ago}
      </span>
      <span class="alarm-answer">{manner.words.alarmHint}</span>
    </button>
  )
}
