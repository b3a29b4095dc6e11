/**
 * Entries that a device made while its time lagged, as it found out later. Such an entry was made between its stamp and
 * that much later; of two from one lag the difference is right. So a wait begun in a lag is over for everybody else only
 * when the later of its two ends is, also for those who went on before anybody knew.
 */
import { compareEvents, type RunEvent } from './event.ts'
import type { Run, Waiting } from './run.ts'

/** The entry that told of it. */
export type Lag = Pick<Extract<RunEvent, { type: 'clock-caught-up' }>, 'id' | 'byMs'>

/** By the ids of entries. */
export type Lags = ReadonlyMap<string, Lag>

export const NO_LAGS: Lags = new Map()

/** `ordered`: all that is known of a run, in the agreed order. What has been found out once holds from then on. */
export function lagsIn(ordered: readonly RunEvent[]): Lags {
  const lags = new Map<string, Lag>()
  for (const found of ordered) {
    if (found.type !== 'clock-caught-up') continue
    for (const event of ordered) {
      const isIn = event.device === found.device && event.at >= found.since && compareEvents(event, found) < 0
      if (isIn && !lags.has(event.id)) lags.set(event.id, found)
    }
  }
  return lags
}

/** What `change` makes of the run, as the entry `id` met it: by the clock of its own lag, where it was made in one. */
export function byItsClock(run: Run, lags: Lags, id: string, change: (seen: Run) => Run | null): Run | null {
  const lag = lags.get(id)
  if (!lag) return change(run)
  const changed = change(moved(run, lags, lag, -lag.byMs))
  return changed && moved(changed, lags, lag, lag.byMs)
}

function moved(run: Run, lags: Lags, { id: found }: Lag, byMs: number): Run {
  const lanes = Object.entries(run.lanes).map(([id, lane]) => {
    const { waiting } = lane
    if (!waiting || lags.get(waiting.begunBy)?.id !== found) return [id, lane]
    return [id, { ...lane, waiting: later(waiting, byMs) }]
  })
  return { ...run, lanes: Object.fromEntries(lanes) as Run['lanes'] }
}

/** When its alarm was answered stays as it was stamped. */
function later(waiting: Waiting, byMs: number): Waiting {
  const { since, due, latest } = waiting
  return { ...waiting, since: since + byMs, due: due + byMs, latest: latest === null ? null : latest + byMs }
}
