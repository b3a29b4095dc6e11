import { useEffect, useState } from 'preact/hooks'
import type { WholePlan } from '../../app/whole-plan.ts'
import type { Course, Lane } from '../../core/procedure/course.ts'
import { textIn } from '../../core/talk/call-words.ts'
import { useSurroundings } from '../surroundings.ts'
import { StartByNote } from './start-by-note.tsx'
import './whole-plan.css'
import { useGatherWords } from './use-gather-words.ts'

const MINUTE_MS = 60_000
const TICK_EVERY = [5, 10, 15, 30, 60] as const
const MOST_TICKS = 8

/** All lanes from start to end, how long that takes, and what one side after the other would take. */
export function WholePlanView({ course }: { readonly course: Course }) {
  const gather = useGatherWords()
  const { app } = useSurroundings()
  const [plan, setPlan] = useState<WholePlan | null>(null)
  useEffect(() => {
    let isHere = true
    void app.wholePlan(course).then((fresh) => (isHere ? setPlan(fresh) : undefined))
    return () => {
      isHere = false
    }
  }, [app, course])
  return (
    <section class="whole-plan" aria-label={gather.plan}>
      {plan === null && <p>{gather.planning}</p>}
      {plan?.kind === 'none' && <p role="alert">{gather.planFault}</p>}
      {plan?.kind === 'plan' && (
        <>
          <p class="whole-facts">
            <b>{gather.takes(plan.likely?.p50 ?? plan.finish)}</b>{' '}
            {plan.likely && gather.spread(plan.likely.p80, plan.likely.p95)} <Saved plan={plan} />{' '}
            <small>{plan.runs === 0 ? gather.estimated : gather.learned(plan.runs)}</small>
          </p>
          <StartByNote plan={plan} />
          <div class="whole-staves" aria-hidden="true">
            {course.lanes
              .filter(({ steps }) => steps.length > 0)
              .map((lane) => (
                <WholeStave key={lane.id} lane={lane} plan={plan} />
              ))}
            <Ticks finish={plan.finish} />
          </div>
        </>
      )}
    </section>
  )
}

type Planned = Extract<WholePlan, { kind: 'plan' }>

function Saved({ plan }: { readonly plan: Planned }) {
  const gather = useGatherWords()
  if (plan.oneAfterOther === null) return null
  const savedMs = plan.oneAfterOther - plan.finish
  return <span>{savedMs < MINUTE_MS ? gather.savesNothing : gather.saves(savedMs)}</span>
}

function WholeStave({ lane, plan }: { readonly lane: Lane; readonly plan: Planned }) {
  const { app } = useSurroundings()
  return (
    <div class="whole-stave">
      <span class="whole-name">{textIn(lane.name, app.manner())}</span>
      <span class="whole-track">
        {plan.notes
          .filter((note) => note.lane === lane.id)
          .map(({ kind, from, to }) => (
            <span
              key={`${kind} ${from}`}
              class={`whole-note ${kind}`}
              style={{ left: percent(from, plan.finish), width: percent(to - from, plan.finish) }}
            />
          ))}
      </span>
    </div>
  )
}

function Ticks({ finish }: { readonly finish: number }) {
  const minutes = finish / MINUTE_MS
  const every = TICK_EVERY.find((step) => minutes / step <= MOST_TICKS) ?? 120
  const count = Math.floor(minutes / every)
  return (
    <div class="whole-stave">
      <span class="whole-name" />
      <span class="whole-track ticks">
        {Array.from({ length: count }, (_, index) => (index + 1) * every).map((at) => (
          <span key={at} class="whole-tick" style={{ left: percent(at * MINUTE_MS, finish) }}>
            {at}
          </span>
        ))}
      </span>
    </div>
  )
}

function percent(ms: number, of: number): string {
  return `${((100 * ms) / Math.max(1, of)).toFixed(3)}%`
}
