/**
 * Going on without entries that were lost. What they said is unknown: that a lane was stopped, that steps were taken
 * back and done once more, that a wait is due later. So all lanes stop until somebody has looked at them, and each waits
 * anew, for as long as the longest wait of the steps that it has behind it: whichever of them is really running on it
 * is then over, however often it was begun. A longest time cannot be shown to have been kept, so it counts as missed.
 */
import type { Course, LaneStep } from '../procedure/course.ts'
import type { LaneId } from '../procedure/procedure.ts'
import type { RunEvent } from './event.ts'
import { interrupted } from './crew-changes.ts'
import { roundOf, type LaneState, type Run, type Stop, type Waiting } from './run.ts'

type EntriesLost = Extract<RunEvent, { type: 'entries-lost' }>

export function afterLoss(course: Course, run: Run, event: EntriesLost): Run {
  const stop: Stop = { kind: 'entries-lost', at: event.at, eventId: event.id }
  const lanes = course.lanes.map(({ id, steps }): [string, LaneState | undefined] => {
    const lane = run.lanes[id]
    if (!lane || steps.length === 0) return [id, lane]
    const waiting = waitingAnew(lane, id, steps.slice(0, lane.position), event)
    return [id, { ...lane, waiting, stop: lane.stop ?? stop, cautioned: false }]
  })
  const crew = run.crew.map((hands) => ({ ...interrupted(hands), chosen: false, restUntil: null }))
  return { ...run, crew, lanes: Object.fromEntries(lanes) as Run['lanes'] }
}

/** Null on a lane that has no wait behind it. */
function waitingAnew(lane: LaneState, id: LaneId, behind: readonly LaneStep[], event: EntriesLost): Waiting | null {
  const waits = behind.flatMap(({ step }) => (step.wait ? [{ step: step.id, wait: step.wait }] : []))
  const [longest] = waits.sort((a, b) => b.wait.minSeconds - a.wait.minSeconds)
  if (!longest) return null
  const { step, wait } = longest
  const round = Math.max(1, roundOf(lane, step) - 1)
  const counting = lane.waiting ?? { lane: id, step, round, kind: wait.kind, due: 0, latest: null }
  return {
    ...counting,
    // By the time of the device that says so: what it catches up with later counts for this wait too.
    device: event.device,
    begunBy: event.id,
    since: event.at,
    due: Math.max(counting.due, event.at + wait.minSeconds * 1000),
    latest: counting.latest === null ? null : event.at,
    acknowledgedAt: null
  }
}

/**
 * How many places in a device's own count are empty, so that something of its own is missing. What somebody has already
 * gone on without is not counted again. `events` are of one run, in any order.
 */
export function gapsIn(events: readonly RunEvent[], device: string): number {
  const own = events.filter((event) => event.device === device)
  const last = own.reduce((latest, { seq }) => Math.max(latest, seq), 0)
  const known = own.reduce((latest, { type, seq }) => (type === 'entries-lost' ? Math.max(latest, seq) : latest), 0)
  return last - known - new Set(own.filter(({ seq }) => seq > known).map(({ seq }) => seq)).size
}
