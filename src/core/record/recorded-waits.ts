/** Every wait of a run: how long it had to be, and how long it really was. */
import { laneOf, type Course } from '../procedure/course.ts'
import type { LaneId } from '../procedure/procedure.ts'
import type { RunEvent } from '../run/event.ts'
import type { Lags } from '../run/lags.ts'
import type { Waiting } from '../run/run.ts'
import type { PlannedFor } from './planned-times.ts'
import type { WaitRow } from './run-record.ts'
import { timeBy } from './time-by.ts'
import type { Walk } from './walk.ts'

interface Open {
  readonly waiting: Waiting
  readonly begun: RunEvent
  /** What was done first once the wait was over; null while nothing was. */
  readonly ended: RunEvent | null
}

export function recordedWaits(course: Course, { visits, lags }: Walk, plannedFor: PlannedFor): readonly WaitRow[] {
  const rows: WaitRow[] = []
  const open = new Map<LaneId, Open>()
  const close = (lane: LaneId, event: RunEvent | null) => {
    const found = open.get(lane)
    if (found) rows.push(rowOf(course, { ...found, ended: found.ended ?? event }, lags, plannedFor))
    open.delete(lane)
  }
  for (const { event, after } of visits) {
    for (const [lane, { waiting }] of Object.entries(after.lanes)) {
      const known = open.get(lane)
      // Looking at a lane after a loss begins a wait anew; it stays the same one.
      const isSame = known && waiting && known.waiting.step === waiting.step && known.waiting.round === waiting.round
      // What comes once it is over changes nothing of it.
      if (isSame && known.ended) continue
      if (isSame) {
        const ended = waiting.acknowledgedAt === null ? null : event
        open.set(lane, { ...known, ended, waiting: { ...waiting, latest: waiting.latest ?? known.waiting.latest } })
      } else {
        close(lane, event)
        if (waiting) open.set(lane, { waiting, begun: event, ended: null })
      }
    }
  }
  for (const lane of open.keys()) close(lane, null)
  return rows.sort((a, b) => a.since - b.since || (a.lane < b.lane ? -1 : 1))
}

function rowOf(course: Course, { waiting, begun, ended }: Open, lags: Lags, plannedFor: PlannedFor): WaitRow {
  const { lane, step, round, kind, since, due, latest } = waiting
  const asked = laneOf(course, lane)?.steps.find((place) => place.step.id === step)?.step.wait
  const endedAt = ended && timeBy(waiting, ended, lags)
  return {
    lane,
    step,
    round,
    kind,
    source: asked?.source ?? {},
    by: begun.by,
    since,
    minSeconds: (due - since) / 1000,
    maxSeconds: latest === null ? (asked?.maxSeconds ?? null) : (latest - since) / 1000,
    due,
    planned: plannedFor(waiting),
    endedAt,
    actualSeconds: endedAt === null ? null : (endedAt - since) / 1000,
    result: resultOf(waiting, endedAt)
  }
}

function resultOf({ due, latest }: Waiting, endedAt: number | null): WaitRow['result'] {
  if (endedAt === null) return 'running'
  if (endedAt < due) return 'begun-anew'
  return latest !== null && endedAt > latest ? 'too-long' : 'kept'
}
