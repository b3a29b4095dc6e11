/** The one thing that matters now: what the voice calls and the screen shows large. */
import type { Course, LaneStep } from '../procedure/course.ts'
import type { LaneId } from '../procedure/procedure.ts'
import { whereNext } from '../plan/where-next.ts'
import { phaseOf } from './phase.ts'
import { FIRST_HANDS, handsOf, type Run, type Stop, type Waiting } from './run.ts'

export type Call =
  | { readonly kind: 'not-started' }
  /** A wait is over and nobody has answered its alarm yet. */
  | { readonly kind: 'alarm'; readonly lane: LaneId; readonly waiting: Waiting }
  | { readonly kind: 'paused' }
  | { readonly kind: 'caution'; readonly lane: LaneId; readonly place: LaneStep }
  | { readonly kind: 'step'; readonly lane: LaneId; readonly place: LaneStep }
  | { readonly kind: 'stopped'; readonly lane: LaneId; readonly stop: Stop; readonly place: LaneStep | null }
  | { readonly kind: 'late'; readonly lane: LaneId; readonly waiting: Waiting }
  /** Nothing to do with hands until `until`, trusted epoch ms. */
  | { readonly kind: 'all-waiting'; readonly lane: LaneId; readonly until: number }
  /** Nothing to do until the hands of another device are done on `lane`. */
  | { readonly kind: 'stand-by'; readonly lane: LaneId; readonly hands: string }
  | { readonly kind: 'finished' }
  | { readonly kind: 'abandoned' }

/** Calls whose lane the hands are on, or ought to be. */
export type LaneInHand = Extract<Call, { kind: 'alarm' | 'caution' | 'step' | 'stopped' | 'late' }>

export function namesLaneInHand(call: Call): call is LaneInHand {
  return 'lane' in call && call.kind !== 'all-waiting' && call.kind !== 'stand-by'
}

/** An alarm that the hands it was meant for have not answered by then is everybody's, ms. */
const OWN_ALARM_MS = 20_000

/** `device` speaks to the hands that are called. */
export function callAt(course: Course, run: Run, at: number, device = FIRST_HANDS): Call {
  if (run.status === 'not-started' || run.status === 'finished' || run.status === 'abandoned')
    return { kind: run.status }
  const ringing = alarmsAt(run, at, device)[0]
  if (ringing) return { kind: 'alarm', lane: ringing.lane, waiting: ringing }
  if (run.status === 'paused') return { kind: 'paused' }
  const assignment = whereNext(course, run, at, device)
  if (assignment.kind === 'wait') return { kind: 'all-waiting', lane: assignment.lane, until: assignment.until }
  if (assignment.kind === 'stand-by') return assignment
  if (assignment.kind === 'nothing') return { kind: 'finished' }
  const lane = assignment.lane
  const phase = phaseOf(course, run, lane, at)
  if (phase.kind === 'late') return { kind: 'late', lane, waiting: phase.waiting }
  const state = run.lanes[lane]
  const steps = course.lanes.find((known) => known.id === lane)?.steps
  const place = (state && steps?.[state.position]) ?? null
  if (phase.kind === 'stopped') return { kind: 'stopped', lane, stop: phase.stop, place }
  if (phase.kind !== 'ready') throw new Error(`hands were sent to lane ${lane}, which is ${phase.kind}`)
  const cautioned = phase.place.step.cautions.length === 0 || state?.cautioned === true
  return { kind: cautioned ? 'step' : 'caution', lane, place: phase.place }
}

/** Waits that are over and unanswered and ring for these hands, the one that ended first in front. */
function alarmsAt(run: Run, at: number, device: string): readonly Waiting[] {
  return waitsAhead(run).filter((waiting) => at >= ringsAt(run, waiting, device))
}

/** Waits still running or unanswered, for whoever sets alarms. */
export function waitsAhead(run: Run): readonly Waiting[] {
  return Object.values(run.lanes)
    .flatMap((lane) => (lane.waiting && lane.waiting.acknowledgedAt === null ? [lane.waiting] : []))
    .sort((a, b) => a.due - b.due)
}

/** When the alarm of a wait rings for the hands of a device: at its end for those who began it, later for the others. */
export function ringsAt(run: Run, waiting: Waiting, device: string): number {
  const isTheirs = handsOf(run, device) === handsOf(run, waiting.device)
  return isTheirs ? waiting.due : waiting.due + OWN_ALARM_MS
}
