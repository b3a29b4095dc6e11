import { useStore } from '../use-store.ts'
import type { ComponentChildren } from 'preact'
import type { Call } from '../../core/run/call.ts'
import { callWords, laneName, stepNamed, textIn, type Told } from '../../core/talk/call-words.ts'
import { useFit } from '../parts/fit.ts'
import { Symbol } from '../parts/symbol.tsx'
import { TimeLeft } from '../parts/time-left.tsx'
import { useRun, useWords } from '../surroundings.ts'
import { CautionText } from './caution-text.tsx'
import { useTold } from './use-told.ts'

/** The call in large words, as large as the reading distance asks for and the room allows. */
export function CallText({ call }: { readonly call: Call }) {
  const told = useTold()
  const words = useWords()
  if (call.kind === 'caution') {
    return (
      <Fitted what={call.place.step.id + call.lane}>
        <CautionText
          cautions={call.place.step.cautions}
          manner={told.manner}
          before={<LaneTag name={laneName(told.course, call.lane, told.manner)} />}
        />
      </Fitted>
    )
  }
  if (call.kind === 'all-waiting') {
    return (
      <Fitted what={`${call.lane} ${call.until}`}>
        <h1 class="headline">{words.run.handsFree}</h1>
        <p class="question">{words.run.firstFree(laneName(told.course, call.lane, told.manner))}</p>
        <p class="free-in">
          <TimeLeft until={call.until} />
        </p>
      </Fitted>
    )
  }
  const { lane, headline, hints } = callWords(told, call, false)
  const asks = call.kind === 'step' && call.place.step.check !== null
  const [question, rest] = asks
    ? [hints[0] ?? null, hints.slice(1)]
    : [null, hasButtons(call) ? hints.slice(0, -1) : hints]
  const before = call.kind === 'step' ? finishedBefore(told, call.lane) : null
  return (
    <Fitted what={[lane, headline, before, ...hints].join('|')}>
      {lane !== null && <LaneTag name={lane} />}
      {before !== null && <p class="hint">{words.run.before(before)}</p>}
      <h1 class="headline">{withoutLane(headline, lane)}</h1>
      {question !== null && <p class="question">{question}</p>}
      {rest.map((hint) => (
        <p key={hint} class="hint">
          {hint}
        </p>
      ))}
    </Fitted>
  )
}

/** A question of Sidecall's own: what it said last. */
export function AskingText() {
  const { conductor } = useRun()
  const transcript = useStore(conductor.$transcript)
  const text = transcript.findLast(({ who }) => who === 'sidecall')?.text ?? ''
  return (
    <Fitted what={text}>
      <h1 class="headline">{text}</h1>
    </Fitted>
  )
}

/** The corrections stand beside as buttons: saying them here again, as the last hint, would only make all smaller. */
function hasButtons(call: Call): boolean {
  return call.kind === 'late' || (call.kind === 'stopped' && call.stop.kind !== 'problem')
}

function Fitted({ what, children }: { readonly what: string; readonly children: ComponentChildren }) {
  const ref = useFit<HTMLDivElement>(what)
  return (
    <div ref={ref} class="call-text" role="status" aria-live="polite" aria-atomic="true">
      {children}
    </div>
  )
}

function LaneTag({ name }: { readonly name: string }) {
  return (
    <p class="lane-tag">
      <Symbol name="hand" />
      {name}
    </p>
  )
}

/** Coming back to a lane: what was done there last, unless the hands were there all the time. */
function finishedBefore({ course, run, manner }: Told, lane: string): string | null {
  const worked = run.progress.at(-1)
  const last = run.lanes[lane]?.last
  if (!last || !worked || !('lane' in worked) || worked.lane === lane) return null
  const step = stepNamed(course, lane, last.step)
  return step && textIn(step.say, manner)
}

/** Spoken, the lane comes first; on the screen it stands above already. */
function withoutLane(headline: string, lane: string | null): string {
  return lane !== null && headline.startsWith(`${lane}. `) ? headline.slice(lane.length + 2) : headline
}
