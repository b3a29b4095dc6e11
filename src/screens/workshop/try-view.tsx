/** The draft carried out in no time: how long it takes, and one day played back. */
import { useEffect, useState } from 'preact/hooks'
import type { WholePlan } from '../../app/whole-plan.ts'
import type { Trial } from '../../core/plan/trial.ts'
import type { Procedure } from '../../core/procedure/procedure.ts'
import { Press } from '../parts/press.tsx'
import { DayPlayed } from './day-played.tsx'
import { useWorkshopWords } from './use-workshop-words.ts'
import { useDesk } from './workshop-context.ts'

const MINUTE_MS = 60_000
const minutes = (ms: number) => Math.ceil(ms / MINUTE_MS)

export interface TryViewProps {
  readonly published: Procedure | null
  readonly procedure: Procedure | null
}

type Tried = { readonly kind: 'not' | 'working' | 'broke' } | { readonly kind: 'done'; readonly trial: Trial }

export function TryView({ published, procedure }: TryViewProps) {
  const { workshop } = useDesk()
  const words = useWorkshopWords()
  const [tried, setTried] = useState<Tried>({ kind: 'not' })
  const [seed, setSeed] = useState(1)
  useEffect(() => setTried({ kind: 'not' }), [procedure])
  if (!procedure) return <p class="state-note">{words.trial.notSound}</p>
  const tryIt = () => {
    setTried({ kind: 'working' })
    setSeed(seed + 1)
    void workshop
      .trial(procedure, seed)
      .then((trial) => setTried(trial === null ? { kind: 'broke' } : { kind: 'done', trial }))
  }
  return (
    <div class="draft-form">
      <section>
        <h2>{words.plan.title}</h2>
        <PlanFacts published={published} procedure={procedure} />
      </section>
      <section>
        <h2>{words.trial.title}</h2>
        <Press onPress={tryIt} disabled={tried.kind === 'working'}>
          {tried.kind === 'done' ? words.trial.again : words.trial.begin}
        </Press>
        {tried.kind === 'working' && <p role="status">{words.trial.working}</p>}
        {tried.kind === 'broke' && <p role="alert">{words.trial.broke}</p>}
        {tried.kind === 'done' && (
          <>
            <TrialFacts trial={tried.trial} />
            <DayPlayed trial={tried.trial} procedure={procedure} />
          </>
        )}
      </section>
    </div>
  )
}

function TrialFacts({ trial: { minutes: day, isGivenUp, days } }: { readonly trial: Trial }) {
  const words = useWorkshopWords()
  return (
    <ul class="trial-facts" role="status">
      <li>{isGivenUp ? words.trial.gaveUp : words.trial.day(Math.ceil(day))}</li>
      <li>{words.trial.days(days.count, Math.ceil(days.p50), Math.ceil(days.p80))}</li>
      <li>{days.bad === 0 ? words.trial.good : words.trial.bad(days.bad, days.count)}</li>
    </ul>
  )
}

/** Beside what it was in the published version. */
function PlanFacts({ published, procedure }: TryViewProps & { readonly procedure: Procedure }) {
  const { workshop } = useDesk()
  const words = useWorkshopWords()
  const [plans, setPlans] = useState<readonly [WholePlan, WholePlan | null] | null>(null)
  useEffect(() => {
    let isHere = true
    setPlans(null)
    // One after the other: of two questions at once the planner answers the newer one.
    void workshop.plan(procedure).then(async (now) => {
      const was = published ? await workshop.plan(published) : null
      if (isHere) setPlans([now, was])
    })
    return () => {
      isHere = false
    }
  }, [procedure, published, workshop])
  if (plans === null) return <p role="status">{words.plan.working}</p>
  const [now, was] = plans
  if (now.kind === 'none') return <p role="alert">{words.plan.none}</p>
  return (
    <div class="plan-facts">
      <p>
        <b>{words.plan.takes(minutes(now.likely?.p50 ?? now.finish))}</b>
        {was?.kind === 'plan' && ` (${words.plan.was(minutes(was.likely?.p50 ?? was.finish))})`}
      </p>
      {now.likely && (
        <p>
          {words.plan.p80(minutes(now.likely.p80))}
          {was?.kind === 'plan' && was.likely && ` (${words.plan.wasP80(minutes(was.likely.p80))})`}
        </p>
      )}
    </div>
  )
}
