import type { RunEvent } from '../run/event.ts'
import type { Lags } from '../run/lags.ts'
import type { Waiting } from '../run/run.ts'

/** When `event` was made, by the clock that `waiting` goes by, trusted epoch ms. */
export function timeBy(waiting: Waiting, event: RunEvent, lags: Lags): number {
  const lag = lags.get(event.id)
  return lag && lags.get(waiting.begunBy)?.id === lag.id ? event.at + lag.byMs : event.at
}
