/**
 * What the rest of a run will look like if everything goes well: the present order of serving the lanes, the stated
 * hands-on times, every wait at its minimum, every answer good. An estimate, recomputed whenever it is needed.
 */
import type { Course } from '../procedure/course.ts'
import type { LaneId } from '../procedure/procedure.ts'
import { callAt, type Call } from '../run/call.ts'
import type { Command } from '../run/command.ts'
import { decide, type Stamp } from '../run/decide.ts'
import type { Answer, RunFact } from '../run/event.ts'
import { expectedCount } from '../run/judge-answer.ts'
import { reduce } from '../run/reduce.ts'
import type { Run } from '../run/run.ts'

/** Times are trusted epoch ms. */
export interface Segment {
  readonly lane: LaneId
  readonly step: string
  readonly kind: 'hands' | 'wait'
  readonly start: number
  readonly end: number
}

export interface Projection {
  readonly segments: readonly Segment[]
  /** When the run is complete. */
  readonly finish: number
}

const START: RunFact = { type: 'run-started', procedureId: '', procedureHash: '', site: '', machine: '', zone: 'UTC' }

/** More moves than any procedure needs: rounds of repeats are projected at their least number. */
const MOST_MOVES = 20_000
/** An order that misses a maximum again and again would be put right for ever. */
const MOST_CORRECTIONS = 20

export function project(course: Course, from: Run, at: number): Projection {
  let now = at
  let seq = 0
  const stamp: Stamp = (fact) => {
    seq += 1
    return {
      id: `projected-${seq}`,
      runId: from.id,
      at: now,
      deviceAt: now,
      device: 'projection',
      seq,
      by: '',
      via: 'app',
      ...fact
    }
  }
  let run = from.status === 'not-started' ? reduce(course, from, stamp(START)) : from
  if (run.status === 'paused') run = { ...run, status: 'running' }
  const segments: Segment[] = runningWaits(run, at)
  let corrections = 0
  for (let move = 0; move < MOST_MOVES && run.status === 'running'; move += 1) {
    const call = callAt(course, run, now)
    if (call.kind === 'all-waiting') {
      now = call.until
      continue
    }
    const command = bestCommand(course, call)
    if (!command) break
    if (command.type === 'correct' && (corrections += 1) > MOST_CORRECTIONS) break
    if (call.kind === 'step') {
      const end = now + call.place.step.handsSeconds * 1000
      segments.push({ lane: call.lane, step: call.place.step.id, kind: 'hands', start: now, end })
      // Alarms that ring meanwhile are answered in passing.
      now = end
      run = answerAlarms(course, run, now, stamp)
    }
    const decision = decide(course, run, command, now, stamp)
    if (decision.kind === 'refused') break
    run = decision.events.reduce((state, event) => reduce(course, state, event), run)
    if (call.kind === 'step') segments.push(...waitsBegunAt(run, call.lane, now))
  }
  return { segments, finish: Math.max(now, ...segments.map(({ end }) => end)) }
}

function answerAlarms(course: Course, run: Run, at: number, stamp: Stamp): Run {
  const call = callAt(course, run, at)
  if (call.kind !== 'alarm') return run
  const decision = decide(course, run, { type: 'acknowledge-wait', lane: call.lane }, at, stamp)
  return answerAlarms(
    course,
    decision.events.reduce((state, event) => reduce(course, state, event), run),
    at,
    stamp
  )
}

function bestCommand(course: Course, call: Call): Command | null {
  switch (call.kind) {
    case 'alarm':
      return { type: 'acknowledge-wait', lane: call.lane }
    case 'caution':
      return { type: 'understood' }
    case 'stopped':
    case 'late':
      return { type: 'correct', lane: call.lane, action: '' }
    case 'step': {
      const { check, confirm } = call.place.step
      if (check) return { type: 'answer', answer: goodAnswer(course, call.lane, check) }
      return confirm ? { type: 'confirm', how: 'phrase' } : { type: 'done' }
    }
    default:
      return null
  }
}

function goodAnswer(
  course: Course,
  lane: LaneId,
  check: NonNullable<Extract<Call, { kind: 'step' }>['place']['step']['check']>
): Answer {
  switch (check.kind) {
    case 'yes-no':
      return { kind: 'yes-no', value: check.good }
    case 'count':
      return { kind: 'count', value: expectedCount(course.procedure, lane, check.parts) }
    case 'reading':
      return { kind: 'reading', value: check.min ?? check.max ?? 0, unit: check.unit }
  }
}

function runningWaits(run: Run, at: number): Segment[] {
  return Object.values(run.lanes).flatMap(({ waiting }) =>
    waiting && waiting.due > at
      ? [{ lane: waiting.lane, step: waiting.step, kind: 'wait' as const, start: waiting.since, end: waiting.due }]
      : []
  )
}

function waitsBegunAt(run: Run, lane: LaneId, at: number): Segment[] {
  const waiting = run.lanes[lane]?.waiting
  return waiting?.since === at ? [{ lane, step: waiting.step, kind: 'wait', start: at, end: waiting.due }] : []
}
