/** Every wait of a run: how long it had to be, and how long it really was. */
import { laneOf, type Course } from '../procedure/course.ts'
import type { LaneId } from '../procedure/procedure.ts'
import type { Waiting } from '../run/run.ts'
import type { WaitRow } from './run-record.ts'
import type { Walk } from './walk.ts'

interface Open {
  readonly waiting: Waiting
  readonly by: string
}

export function recordedWaits(course: Course, { visits }: Walk): readonly WaitRow[] {
  const rows: WaitRow[] = []
  const open = new Map<LaneId, Open>()
  const close = (lane: LaneId, endedAt: number | null) => {
    const found = open.get(lane)
    if (found) rows.push(rowOf(course, found, endedAt))
    open.delete(lane)
  }
  for (const { event, after } of visits) {
    for (const [lane, { waiting }] of Object.entries(after.lanes)) {
      const known = open.get(lane)
      // A clock that caught up moves a wait; it stays the same one.
      const isSame = known && waiting && known.waiting.step === waiting.step && known.waiting.round === waiting.round
      if (isSame) open.set(lane, { ...known, waiting: { ...waiting, latest: waiting.latest ?? known.waiting.latest } })
      else {
        close(lane, event.at)
        if (waiting) open.set(lane, { waiting, by: event.by })
      }
    }
  }
  for (const lane of open.keys()) close(lane, null)
  return rows.sort((a, b) => a.since - b.since || (a.lane < b.lane ? -1 : 1))
}

function rowOf(course: Course, { waiting, by }: Open, closedAt: number | null): WaitRow {
  const { lane, step, round, kind, since, due, latest, acknowledgedAt } = waiting
  const asked = laneOf(course, lane)?.steps.find((place) => place.step.id === step)?.step.wait
  const endedAt = acknowledgedAt ?? closedAt
  return {
    lane,
    step,
    round,
    kind,
    source: asked?.source ?? {},
    by,
    since,
    minSeconds: (due - since) / 1000,
    maxSeconds: latest === null ? (asked?.maxSeconds ?? null) : (latest - since) / 1000,
    due,
    endedAt,
    actualSeconds: endedAt === null ? null : (endedAt - since) / 1000,
    result: resultOf(due, latest, endedAt)
  }
}

function resultOf(due: number, latest: number | null, endedAt: number | null): WaitRow['result'] {
  if (endedAt === null) return 'running'
  if (endedAt < due) return 'begun-anew'
  return latest !== null && endedAt > latest ? 'too-long' : 'kept'
}
