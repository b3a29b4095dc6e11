/** One simulated day, lane by lane, with a hand that moves in fast time. */
import { useEffect, useMemo, useState } from 'preact/hooks'
import type { Trial } from '../../core/plan/trial.ts'
import { layOut } from '../../core/procedure/course.ts'
import type { Procedure } from '../../core/procedure/procedure.ts'
import { textIn } from '../../core/talk/call-words.ts'
import { Press } from '../parts/press.tsx'
import { useSurroundings } from '../surroundings.ts'
import { useWorkshopWords } from './use-workshop-words.ts'

/** Seconds of work shown in one. */
const SPEED = 60
const FRAME_MS = 100
const MINUTE_MS = 60_000

export function DayPlayed({ trial, procedure }: { readonly trial: Trial; readonly procedure: Procedure }) {
  const words = useWorkshopWords()
  const { app } = useSurroundings()
  const [at, setAt] = useState(0)
  const [isPlaying, setPlaying] = useState(false)
  const end = trial.minutes * MINUTE_MS
  const lanes = useMemo(() => layOut(procedure).lanes.filter(({ steps }) => steps.length > 0), [procedure])
  const steps = useMemo(
    () => new Map(procedure.stages.flatMap((stage) => stage.steps).map((step) => [step.id, step])),
    [procedure]
  )
  useEffect(() => {
    if (!isPlaying) return
    const timer = setInterval(() => setAt((before) => Math.min(end, before + FRAME_MS * SPEED)), FRAME_MS)
    return () => clearInterval(timer)
  }, [isPlaying, end])
  useEffect(() => {
    if (at >= end) setPlaying(false)
  }, [at, end])

  const said = trial.notes.filter(({ kind, from }) => kind !== 'wait' && from <= at).at(-1)
  const saidStep = said && steps.get(said.step)
  const saidLane = lanes.find(({ id }) => id === said?.lane)
  return (
    <div class="day-played">
      <div class="draft-row">
        <Press
          onPress={() => {
            if (at >= end) setAt(0)
            setPlaying(!isPlaying)
          }}
        >
          {isPlaying ? words.trial.stop : words.trial.play}
        </Press>
        <label class="field">
          {words.trial.at} {Math.floor(at / MINUTE_MS)} <small>({words.trial.speed(SPEED)})</small>
          <input
            type="range"
            min={0}
            max={end}
            step={1000}
            value={at}
            onInput={({ currentTarget }) => setAt(Number(currentTarget.value))}
          />
        </label>
      </div>
      <p class="day-said">
        <b>{saidLane && textIn(saidLane.name, app.manner())}</b>{' '}
        {said && words.trial.kinds[said.kind] !== '' && <i>{words.trial.kinds[said.kind]} </i>}
        {saidStep && textIn(saidStep.say, app.manner())}
      </p>
      {lanes.map(({ id, name }) => (
        <div key={id} class="day-lane">
          <span>{textIn(name, app.manner())}</span>
          <span class="day-track">
            {trial.notes
              .filter(({ lane, from, to }) => lane === id && to > from)
              .map(({ kind, step, from, to }) => (
                <span
                  key={`${kind} ${step} ${from}`}
                  class={`day-note ${kind}`}
                  style={{ left: `${(100 * from) / end}%`, width: `${(100 * (to - from)) / end}%` }}
                />
              ))}
            <span class="day-hand" style={{ left: `${(100 * at) / end}%` }} />
          </span>
        </div>
      ))}
    </div>
  )
}
