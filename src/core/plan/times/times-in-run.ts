/**
 * How long the hands took for each step of a run, read from its log. Steps that were broken into say nothing about how
 * long they take, and are left out: left midway for another lane, handed over, taken back, put right, or timed by a
 * clock that was found wrong. The time of a pause is known, and only that is left out.
 */
import type { Course } from '../../procedure/course.ts'
import type { LaneId } from '../../procedure/procedure.ts'
import { compareEvents, type RunEvent } from '../../run/event.ts'
import { lagsIn } from '../../run/lags.ts'
import { emptyRun, reduce, replay } from '../../run/reduce.ts'
import { handsOf, type Run } from '../../run/run.ts'
import { whereNext } from '../where-next.ts'
import { doubtfulTimes, overlap, type Span } from './spans.ts'
import { readyUntil, type ReadySince } from './ready-since.ts'
import type { TimeSample } from './time-sample.ts'

interface Work {
  /** When these hands ended what they did before. */
  free: number
  /** Where that was. */
  lane: LaneId | null
  /** When they were last sent to a lane, or chose one. */
  turned: number
}

/** `events` of one run, in any order. `changeMs`: what going from one lane to another takes, which is no work. */
export function timesInRun(course: Course, events: readonly RunEvent[], changeMs: number): readonly TimeSample[] {
  return workInRun(course, events, changeMs).map(({ step, machine, operator, run, seconds, at }) => ({
    step,
    machine,
    operator,
    run,
    seconds,
    at
  }))
}

/** A sample with when the hands began, trusted epoch ms; pauses lie in between. */
export interface WorkedStep extends TimeSample {
  readonly entry: string
  readonly from: number
}

export function workInRun(course: Course, events: readonly RunEvent[], changeMs: number): readonly WorkedStep[] {
  const ordered = [...new Map(events.map((event) => [event.id, event])).values()].sort(compareEvents)
  const id = ordered[0]?.runId ?? ''
  const lags = lagsIn(ordered)
  const setAside = new Set(replay(course, id, ordered).setAside.map((event) => event.id))
  const counted = ordered.filter((event) => !setAside.has(event.id))
  const takenBack = new Set(counted.flatMap((event) => (event.type === 'taken-back' ? [event.cancels] : [])))

  const samples: (WorkedStep & Span & { readonly device: string })[] = []
  const works = new Map<string, Work>()
  const broken = new Set<LaneId>()
  const answered = new Map<LaneId, number>()
  const pauses: Span[] = []
  let ready: ReadySince = new Map()
  let pausedAt: number | null = null
  let run: Run = emptyRun(course, id)
  let before = ordered[0]?.at ?? 0

  const startOn = ({ free, lane: last, turned }: Work, lane: LaneId): number =>
    Math.max(
      free + (last !== null && last !== lane ? changeMs : 0),
      turned,
      ready.get(lane) ?? 0,
      answered.get(lane) ?? 0
    )

  for (const event of counted) {
    const { at } = event
    ready = readyUntil(course, run, ready, before, at)
    before = at
    if (takenBack.has(event.id)) continue
    const hands = handsOf(run, event.device)
    const work = works.get(hands.device) ?? { free: at, lane: null, turned: at }
    works.set(hands.device, work)
    const inHand = laneInHand(course, run, event.device, at)
    switch (event.type) {
      case 'step-done':
      case 'check-answered': {
        const { lane, step } = event
        const from = startOn(work, lane)
        const seconds = (at - from - overlap(pauses, from, at)) / 1000
        const machine = run.from?.machine ?? ''
        if (!broken.delete(lane) && seconds > 0)
          samples.push({
            entry: event.id,
            step,
            machine,
            operator: hands.name,
            run: id,
            seconds,
            at,
            from,
            to: at,
            device: event.device
          })
        ready = without(ready, lane)
        answered.delete(lane)
        Object.assign(work, { free: at, lane, turned: at })
        break
      }
      case 'wait-acknowledged':
        answered.set(event.lane, at)
        break
      case 'lane-called':
      case 'lane-chosen':
      case 'rest-called':
        if (inHand === null || inHand === event.lane) break
        // What they leave had been begun, unless they are sent on in the moment it came up.
        if (at > startOn(work, inHand)) {
          broken.add(inHand)
          Object.assign(work, { free: at, lane: inHand })
        }
        work.turned = at
        break
      case 'corrected':
        broken.add(event.lane)
        Object.assign(work, { free: at, lane: event.lane, turned: at })
        break
      case 'problem-reported':
        broken.add(event.lane)
        break
      case 'taken-back': {
        const cancelled = ordered.find((other) => other.id === event.cancels)
        if (cancelled && 'lane' in cancelled && cancelled.lane !== null) broken.add(cancelled.lane)
        if (inHand !== null) broken.add(inHand)
        break
      }
      case 'part-replaced':
      case 'handed-over':
        if (inHand !== null) broken.add(inHand)
        break
      case 'left': {
        const theirs = laneInHand(course, run, event.hands, at)
        if (theirs !== null) broken.add(theirs)
        break
      }
      case 'run-started':
      case 'joined':
        works.set(event.device, { free: at, lane: null, turned: at })
        break
      case 'paused':
        pausedAt = at
        break
      case 'resumed':
        if (pausedAt !== null) pauses.push({ from: pausedAt, to: at })
        pausedAt = null
        break
      case 'entries-lost':
        // Whatever was in hand then may have been told of in what is lost.
        if (inHand !== null) broken.add(inHand)
        break
      case 'caution-acknowledged':
      case 'refused':
      case 'clock-moved':
      case 'clock-caught-up':
      case 'run-finished':
      case 'run-abandoned':
      case 'noted':
      case 'amended':
      case 'signed':
      case 'name-checked':
      case 'spoken':
    }
    if (event.type !== 'taken-back') run = reduce(course, run, event, lags)
    ready = readyUntil(course, run, ready, at, at)
  }
  const doubtful = doubtfulTimes(counted)
  return samples.filter(
    ({ device, from, to }) => !doubtful.some((span) => span.device === device && span.from <= to && from <= span.to)
  )
}

/** The lane that some hands have something to do on. */
function laneInHand(course: Course, run: Run, device: string, at: number): LaneId | null {
  const assignment = whereNext(course, run, at, device)
  return assignment.kind === 'hands' ? assignment.lane : null
}

function without(ready: ReadySince, lane: LaneId): ReadySince {
  return new Map([...ready].filter(([id]) => id !== lane))
}
