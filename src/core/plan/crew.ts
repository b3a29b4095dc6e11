/**
 * A crew of one that carries a run through the real decisions of core/run, taking its own time for each step. Who tells
 * it where to go differs: a plan, or a habit.
 */
import { planner, type PlanOptions } from './plan.ts'
import { problemOf, type PlanAssumptions } from './problem-of-run.ts'
import type { Order } from './send-to.ts'
import type { Course, LaneStep } from '../procedure/course.ts'
import { MACHINE, type LaneId } from '../procedure/procedure.ts'
import { callAt, waitsAhead } from '../run/call.ts'
import type { Command } from '../run/command.ts'
import { decide } from '../run/decide.ts'
import type { Answer, RunEvent, RunFact } from '../run/event.ts'
import { expectedCount } from '../run/judge-answer.ts'
import { emptyRun, reduce } from '../run/reduce.ts'
import { roundOf, type Run, type Waiting } from '../run/run.ts'

/** Waiting is done at the lane that comes next. */
export type Going =
  | { readonly kind: 'go'; readonly lane: LaneId }
  | { readonly kind: 'wait'; readonly lane: LaneId; readonly until: number }

/** `hands`: the lane that was worked on last. */
export type Habit = (course: Course, run: Run, at: number, hands: LaneId | null) => Going

/** Who says where to go next. */
export type Guide =
  | { readonly kind: 'habit'; readonly habit: Habit }
  | { readonly kind: 'plan'; readonly options: PlanOptions; readonly replans: boolean }

export interface Times {
  /** What a step really takes, ms. */
  readonly handsMs: (lane: LaneId, place: LaneStep, round: number) => number
  /** What the plan takes it for, and going to another lane, planned and real. */
  readonly assumed: PlanAssumptions
}

/** What the hands did, or what stood on a lane without them; ms from the start. */
export interface CarriedNote {
  readonly kind: 'hands' | 'caution' | 'put-right' | 'wait'
  readonly lane: LaneId
  readonly step: string
  readonly from: number
  readonly to: number
}

export interface Carried {
  readonly minutes: number
  readonly notes: readonly CarriedNote[]
  /** Steps begun after the longest wait before them. */
  readonly missed: number
  /** It went on for so long that it was given up. */
  readonly isGivenUp: boolean
  /** What each re-planning started from. */
  readonly states: readonly { readonly run: Run; readonly at: number }[]
}

const STARTED_AT = 1_000_000
/** Putting right what was late; the same guess as the planner's. */
const CORRECTION_MS = 60_000
const MOST_CORRECTIONS = 20
const STARTED: RunFact = {
  type: 'run-started',
  procedureId: 'simulated',
  procedureHash: 'simulated',
  site: '',
  machine: '',
  zone: 'Etc/UTC'
}

function stamping(): (at: number) => (fact: RunFact) => RunEvent {
  let seq = 0
  return (at) => (fact) => {
    seq += 1
    const envelope = { id: `crew-${seq}`, runId: 'run', at, deviceAt: at, device: 'tablet', seq, by: 'Crew' }
    return { ...envelope, via: 'touch', ...fact }
  }
}

export function carryOut(course: Course, guide: Guide, { handsMs, assumed }: Times): Carried {
  const stamp = stamping()
  const planFor = planner()
  let at = STARTED_AT
  let run = reduce(course, emptyRun(course, 'run'), stamp(at)(STARTED))
  let order: Order = []
  let hands: LaneId | null = null
  let corrections = 0
  const judged = new Set<string>()
  const states: { run: Run; at: number }[] = []
  let missed = 0
  const notes: CarriedNote[] = []
  const note = (kind: CarriedNote['kind'], lane: LaneId, step: string, from: number, to = at) =>
    void notes.push({ kind, lane, step, from: from - STARTED_AT, to: to - STARTED_AT })

  const command = (given: Command) => {
    const { events, kind } = decide(course, run, given, at, stamp(at), { device: 'tablet', order })
    if (kind === 'refused') throw new Error(`${given.type} is refused at ${at}: ${JSON.stringify(events)}`)
    run = events.reduce((state, event) => reduce(course, state, event), run)
  }
  const plan = () => {
    if (guide.kind !== 'plan') return
    states.push({ run, at })
    const planned = planFor(problemOf(course, run, at, assumed), guide.options)
    if (planned.kind === 'plan') order = planned.plan.order.map((task) => ({ ...task, start: at + task.start }))
  }
  /** Alarms are answered as they ring, whatever the hands are doing. */
  const passTo = (until: number) => {
    for (let ringing = waitsAhead(run)[0]; ringing && ringing.due <= until; ringing = waitsAhead(run)[0]) {
      at = Math.max(at, ringing.due)
      command({ type: 'acknowledge-wait', lane: ringing.lane })
    }
    at = until
  }
  const judge = ({ lane, step, round, latest }: Waiting) => {
    const key = `${lane} ${step} ${round} ${latest}`
    if (latest === null || judged.has(key)) return
    judged.add(key)
    if (at > latest) missed += 1
  }

  const goTo = (lane: LaneId) => {
    if (hands !== null && hands !== lane) passTo(at + assumed.changeMs)
    hands = lane
  }
  /** The hands are there when the wait is over, if they can be. */
  const waitAt = (lane: LaneId, until: number) => {
    goTo(lane)
    passTo(Math.max(at, Math.min(until, ...waitsAhead(run).map(({ due }) => due))))
  }

  plan()
  while (run.status === 'running' && corrections <= MOST_CORRECTIONS) {
    passTo(at)
    if (guide.kind === 'plan') {
      if (guide.replans) plan()
      command({ type: 'call-hands' })
    } else {
      const lane = guide.habit(course, run, at, hands)
      if (lane.kind === 'wait') {
        waitAt(lane.lane, lane.until)
        continue
      }
      command({ type: 'choose-lane', lane: lane.lane })
    }
    const call = callAt(course, run, at, 'tablet')
    switch (call.kind) {
      case 'alarm':
        continue
      case 'all-waiting':
        waitAt(call.lane, call.until)
        continue
      case 'caution':
        note('caution', call.lane, call.place.step.id, at)
        command({ type: 'understood' })
        continue
      case 'late':
      case 'stopped': {
        corrections += 1
        if (call.kind === 'late') judge(call.waiting)
        const from = at
        passTo(at + CORRECTION_MS)
        note('put-right', call.lane, call.kind === 'late' ? call.waiting.step : (call.place?.step.id ?? ''), from)
        command({ type: 'correct', lane: call.lane, action: 'Put right.' })
        continue
      }
      case 'step': {
        const { lane, place } = call
        goTo(lane)
        for (const waiting of waitsBefore(course, run, lane, place)) judge(waiting)
        const state = run.lanes[lane]
        const from = at
        passTo(at + handsMs(lane, place, state ? roundOf(state, place.step.id) : 1))
        note('hands', lane, place.step.id, from)
        const late = callAt(course, run, at, 'tablet')
        // It took so long that the wait before it counts as missed: that is put right first.
        if (late.kind !== 'step' || late.lane !== lane) continue
        command(answerTo(course, lane, place))
        const due = run.lanes[lane]?.waiting?.due ?? at
        if (due > at) note('wait', lane, place.step.id, at, due)
        continue
      }
      default:
        throw new Error(`nothing can be done at ${call.kind}`)
    }
  }
  return { minutes: (at - STARTED_AT) / 60_000, notes, missed, isGivenUp: run.status !== 'finished', states }
}

/** The waits that the start of a step ends: its lane's own, or those of all lanes that stop at a whole-machine step. */
function waitsBefore(course: Course, run: Run, lane: LaneId, place: LaneStep): readonly Waiting[] {
  const own = run.lanes[lane]?.waiting
  if (lane !== MACHINE) return own ? [own] : []
  return course.lanes.flatMap(({ id, steps }) => {
    const state = run.lanes[id]
    const next = steps[state?.position ?? 0]
    const isStopped = id === MACHINE || next === undefined || next.block > place.block
    return state?.waiting && isStopped ? [state.waiting] : []
  })
}

function answerTo(course: Course, lane: LaneId, { step: { check, confirm } }: LaneStep): Command {
  if (check === null) return confirm ? { type: 'confirm', how: 'phrase' } : { type: 'done' }
  return { type: 'answer', answer: goodAnswer(course, lane, check) }
}

function goodAnswer(course: Course, lane: LaneId, check: NonNullable<LaneStep['step']['check']>): Answer {
  switch (check.kind) {
    case 'yes-no':
      return { kind: 'yes-no', value: check.good }
    case 'count':
      return { kind: 'count', value: expectedCount(course.procedure, lane, check.parts) }
    case 'reading':
      return {
        kind: 'reading',
        value: ((check.min ?? check.max ?? 0) + (check.max ?? check.min ?? 0)) / 2,
        unit: check.unit
      }
  }
}
