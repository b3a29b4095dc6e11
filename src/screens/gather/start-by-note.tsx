import { useStore } from '../use-store.ts'
import type { WholePlan } from '../../app/whole-plan.ts'
import { startBy } from '../../core/plan/times/start-by.ts'
import { timeOfDay } from '../../core/talk/time-of-day.ts'
import { useSurroundings } from '../surroundings.ts'
import { useGatherWords } from './use-gather-words.ts'

/** When to begin, so as to be ready as the shop opens. */
export function StartByNote({ plan }: { readonly plan: Extract<WholePlan, { kind: 'plan' }> }) {
  const gather = useGatherWords()
  const { app, zone } = useSurroundings()
  const settings = useStore(app.$settings)
  const needs = plan.likely?.p95 ?? plan.finish
  const { language } = app.manner()
  const found = startBy({ time: settings.readyAt, zone }, needs, app.now())
  return (
    <p class="start-by">
      <label>
        {gather.readyAt}{' '}
        <input
          type="time"
          value={settings.readyAt}
          onInput={({ currentTarget }) => app.$settings.set({ ...settings, readyAt: currentTarget.value })}
        />
      </label>{' '}
      {found.kind === 'begin' && <b>{gather.startBy(timeOfDay(found.at, zone, language))}</b>}
      {found.kind === 'late' && <b role="alert">{gather.tooLate(found.byMs)}</b>}
    </p>
  )
}
