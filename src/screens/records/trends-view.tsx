import { serverSaid } from '../../app/server-said.ts'
import type { DeskLookedBack } from '../../app/records-desk.ts'
import { textFor } from '../../core/talk/quantities.ts'
import { Plot } from './plot.tsx'
import { useReader } from './use-reader.ts'
import { useRecordsWords } from './use-records-words.ts'

const MOST_STEPS = 10

/** What a supervisor improves a procedure by: readings, times, what was tried and what had to be put right. */
export function TrendsView({ looked }: { readonly looked: DeskLookedBack }) {
  const texts = useRecordsWords()
  const { trends: words } = texts
  const reader = useReader()
  if (looked.kind === 'failed') {
    const { failure } = looked
    return (
      <p class="state-note" role="alert">
        {failure.kind === 'unreachable' ? texts.away : texts.failed(serverSaid(failure))}
      </p>
    )
  }
  const { runs, readings, duration, attempts, corrections, steps } = looked.value
  if (runs === 0) return <p class="state-note">{words.none}</p>
  const most = Math.max(1, ...steps.map(({ seconds }) => seconds))
  const time = (seconds: number) => reader.words.minutesSeconds(seconds)
  return (
    <>
      <h1>{words.title(runs)}</h1>
      <p>{words.bad}</p>
      <div class="plots">
        {readings.map(({ unit, points }) => (
          <Plot key={unit} title={words.readings[unit]} points={points} />
        ))}
        <Plot title={words.duration} points={duration} />
        <Plot title={words.attempts} points={attempts} />
        <Plot title={words.corrections} points={corrections} />
      </div>
      <section>
        <h2>{words.steps}</h2>
        <ul class="step-costs">
          {steps.slice(0, MOST_STEPS).map(({ step, say, seconds, planned, runs: counted }) => (
            <li key={step}>
              <svg viewBox="0 0 100 4" preserveAspectRatio="none" aria-hidden="true">
                <rect width={(100 * seconds) / most} height="4" />
              </svg>
              {words.cost(textFor(say, reader.language), time(seconds), time(planned), counted)}
            </li>
          ))}
        </ul>
      </section>
    </>
  )
}
