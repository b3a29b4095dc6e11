/** From a command to the events it causes, or to a refusal that says what is missing. Nothing else makes events. */
import { laneOf, type Course, type LaneStep } from '../procedure/course.ts'
import type { LaneId } from '../procedure/procedure.ts'
import { sendTo, type Order } from '../plan/send-to.ts'
import { takenBy, whereNext } from '../plan/where-next.ts'
import { wearPlaces } from '../procedure/wear-places.ts'
import { batchUpTo } from './batch.ts'
import type { Command } from './command.ts'
import type { Answer, Confirmation, GivenName, RefusalReason, RunEvent, RunFact, StepRef } from './event.ts'
import { isGood, fitsCheck } from './judge-answer.ts'
import { phaseOf, type Phase } from './phase.ts'
import { everyLaneOver, reduce } from './reduce.ts'
import { FIRST_HANDS, handsOf, roundOf, type Run, type Stop } from './run.ts'

export interface Refusal {
  readonly reason: RefusalReason
  readonly lane: LaneId | null
  readonly step: string | null
  readonly remainingMs: number | null
}

export type Decision =
  | { readonly kind: 'accepted'; readonly events: readonly RunEvent[] }
  /** The attempt is itself an event: the record shows it. */
  | { readonly kind: 'refused'; readonly refusal: Refusal; readonly events: readonly RunEvent[] }

/** Gives a fact its envelope: id, trusted time, device, count, person. */
export type Stamp = (fact: RunFact) => RunEvent

/** Who commands, and what is planned for them. */
export interface Commander {
  /** The device that stamps the events; it speaks to one pair of hands. */
  readonly device: string
  /** Where the plan sends these hands, step by step; empty without a plan. */
  readonly order: Order
}

const NO_PLAN: Commander = { device: FIRST_HANDS, order: [] }

/** `at` is trusted time in epoch ms; `stamp` must use the same time, and the commander's device. */
export function decide(
  course: Course,
  run: Run,
  command: Command,
  at: number,
  stamp: Stamp,
  commander: Commander = NO_PLAN
): Decision {
  const facts = factsFor(course, run, command, at, commander.device)
  if ('reason' in facts) {
    return { kind: 'refused', refusal: facts, events: [stamp({ type: 'refused', command: command.type, ...facts })] }
  }
  const events = facts.map(stamp)
  if (command.type === 'take-back') return { kind: 'accepted', events }
  const after = events.reduce((state, event) => reduce(course, state, event), run)
  // Whoever has just chosen a lane is not sent elsewhere by the plan.
  const order = command.type === 'choose-lane' ? [] : commander.order
  return {
    kind: 'accepted',
    events: [...events, ...followingFacts(course, after, at, { ...commander, order }).map(stamp)]
  }
}

/** What a change brings with it: the end of the run, or the hands sent to another lane. */
function followingFacts(course: Course, run: Run, at: number, { device, order }: Commander): readonly RunFact[] {
  if (run.status !== 'running') return []
  if (everyLaneOver(course, run)) return [{ type: 'run-finished' }]
  const mine = handsOf(run, device)
  const sent = sendTo(course, run, at, device, order)
  if (sent.kind === 'hands' && sent.lane !== mine.focus) return [{ type: 'lane-called', lane: sent.lane }]
  if (sent.kind === 'rest' && (sent.lane !== mine.focus || sent.until !== mine.restUntil))
    return [{ type: 'rest-called', lane: sent.lane, until: sent.until }]
  return []
}

type Outcome = readonly RunFact[] | Refusal

function refuse(
  reason: RefusalReason,
  lane: LaneId | null = null,
  step: string | null = null,
  remainingMs: number | null = null
): Refusal {
  return { reason, lane, step, remainingMs }
}

function given({ who }: { readonly who?: GivenName }): { readonly who?: GivenName } {
  return who ? { who } : {}
}

function factsFor(course: Course, run: Run, command: Command, at: number, device: string): Outcome {
  if (run.status === 'not-started') return refuse('not-started')
  if (run.status === 'finished' || run.status === 'abandoned') return refuse('run-over')
  switch (command.type) {
    case 'pause':
      return run.status === 'running' ? [{ type: 'paused' }] : []
    case 'resume':
      return run.status === 'paused' ? [{ type: 'resumed' }] : []
    case 'acknowledge-wait':
      return acknowledge(run, command.lane, at)
    case 'join':
      return run.crew.some((hands) => hands.device === device)
        ? []
        : [{ type: 'joined', name: command.name, ...given(command) }]
    case 'leave':
      if (run.crew.length < 2) return refuse('only-hands')
      return run.crew.some((hands) => hands.device === command.hands) ? [{ type: 'left', hands: command.hands }] : []
    case 'hand-over':
      return [{ type: 'handed-over', to: command.to, ...given(command) }]
    case 'abandon':
      return [{ type: 'run-abandoned', reason: command.reason }]
    case 'report-problem':
      if (!laneOf(course, command.lane)) return refuse('unknown-lane', command.lane)
      return run.lanes[command.lane]?.stop ? [] : [{ type: 'problem-reported', lane: command.lane, text: command.text }]
    case 'replace-part':
      return replacePart(course, command.lane, command.part)
    case 'correct':
      return correct(course, run, command.lane, command.action, at)
    case 'take-back':
      return takeBack(run)
    case 'choose-lane':
      if (!laneOf(course, command.lane)) return refuse('unknown-lane', command.lane)
      return chooseLane(course, run, command.lane, at, device)
    case 'call-hands':
      return []
    case 'done':
    case 'next':
    case 'understood':
    case 'confirm':
    case 'answer':
      return run.status === 'paused' ? refuse('paused') : onCalledStep(course, run, command, at, device)
  }
}

function replacePart(course: Course, lane: LaneId, id: string): Outcome {
  const place = wearPlaces(course.procedure).find(({ part, lane: at }) => part.id === id && at === lane)
  if (!place) return refuse('not-asked', lane)
  return [{ type: 'part-replaced', lane, part: id, pieces: place.part.count }]
}

function chooseLane(course: Course, run: Run, lane: LaneId, at: number, device: string): Outcome {
  if (takenBy(run, device, lane) !== null) return refuse('in-other-hands', lane)
  const blocked = whyNotReady(phaseOf(course, run, lane, at), lane, at)
  // A lane that is stopped or late is there to be put right.
  if (blocked && blocked.reason !== 'needs-correction') return blocked
  return handsOf(run, device).focus === lane ? [] : [{ type: 'lane-chosen', lane }]
}

type StepCommand = Extract<Command, { type: 'done' | 'next' | 'understood' | 'confirm' | 'answer' }>

function onCalledStep(course: Course, run: Run, command: StepCommand, at: number, device: string): Outcome {
  const assignment = whereNext(course, run, at, device)
  if (assignment.kind === 'stand-by') return refuse('in-other-hands', assignment.lane)
  const lane = assignment.kind === 'nothing' ? handsOf(run, device).focus : assignment.lane
  if (lane === null) return refuse('not-asked')
  const phase = phaseOf(course, run, lane, at)
  if (phase.kind !== 'ready') return whyNotReady(phase, lane, at) ?? refuse('not-asked', lane)
  return onReadyStep(
    course,
    run,
    command,
    { lane, step: phase.place.step.id, round: roundFor(run, lane, phase.place) },
    phase.place
  )
}

function whyNotReady(phase: Phase, lane: LaneId, at: number): Refusal | null {
  switch (phase.kind) {
    case 'waiting':
      return refuse('wait-not-over', lane, phase.waiting.step, phase.waiting.due - at)
    case 'late':
      return refuse('needs-correction', lane, phase.waiting.step)
    case 'stopped':
      return refuse('needs-correction', lane)
    case 'at-barrier':
      return refuse('lane-at-barrier', lane)
    case 'tool-in-use':
      return refuse('tool-in-use', lane, phase.place.step.id)
    case 'finished':
      return refuse('lane-finished', lane)
    case 'ready':
      return null
  }
}

function onReadyStep(course: Course, run: Run, command: StepCommand, ref: StepRef, place: LaneStep): Outcome {
  const { step } = place
  const cautioned = step.cautions.length === 0 || run.lanes[ref.lane]?.cautioned === true
  if (!cautioned) {
    return command.type === 'understood'
      ? [{ type: 'caution-acknowledged', ...ref }]
      : refuse('needs-caution', ref.lane, step.id)
  }
  if (step.check) {
    if (command.type !== 'answer') return refuse('needs-answer', ref.lane, step.id)
    return answer(course, run, step.check, command.answer, ref)
  }
  switch (command.type) {
    case 'confirm':
      return done(ref, step.confirm === null ? 'everyday' : command.how)
    case 'done':
    case 'next':
      return step.confirm === null ? done(ref, 'everyday') : refuse('needs-confirmation', ref.lane, step.id)
    case 'understood':
    case 'answer':
      return refuse('not-asked', ref.lane, step.id)
  }
}

function done(ref: StepRef, confirmation: Confirmation): Outcome {
  return [{ type: 'step-done', confirmation, ...ref }]
}

function answer(
  course: Course,
  run: Run,
  check: NonNullable<LaneStep['step']['check']>,
  given: Answer,
  ref: StepRef
): Outcome {
  if (!fitsCheck(check, given)) return refuse('wrong-kind-of-answer', ref.lane, ref.step)
  return [{ type: 'check-answered', answer: given, good: isGood(course, run, ref, check, given), ...ref }]
}

function acknowledge(run: Run, lane: LaneId, at: number): Outcome {
  const waiting = run.lanes[lane]?.waiting
  if (!waiting) return refuse('not-asked', lane)
  if (at < waiting.due) return refuse('wait-not-over', lane, waiting.step, waiting.due - at)
  if (waiting.acknowledgedAt !== null) return []
  return [{ type: 'wait-acknowledged', lane, step: waiting.step, round: waiting.round }]
}

function correct(course: Course, run: Run, lane: LaneId, action: string, at: number): Outcome {
  const phase = laneOf(course, lane) ? phaseOf(course, run, lane, at) : null
  if (phase === null) return refuse('unknown-lane', lane)
  if (phase.kind === 'stopped')
    return [{ type: 'corrected', lane, action, redo: readAnew(course, run, lane, phase.stop) }]
  if (phase.kind !== 'late') return refuse('not-asked', lane)
  const step = laneOf(course, lane)?.steps.find((place) => place.step.id === phase.waiting.step)?.step
  return [{ type: 'corrected', lane, action, redo: step?.wait?.late?.redo ?? null }]
}

/** A batch that was put right is another batch: each of its readings is taken anew. Null asks for the last one only. */
function readAnew(course: Course, run: Run, lane: LaneId, stop: Stop): string | null {
  const step = laneOf(course, lane)?.steps[run.lanes[lane]?.position ?? -1]?.step
  if (stop.kind !== 'bad-answer' || !step) return null
  const first = batchUpTo(course, lane, step.id)[0]?.step.id
  return first === undefined || first === step.id ? null : first
}

/** The last thing that counted, on whichever lane: whole-machine steps cannot be left behind by going back one lane. */
function takeBack(run: Run): Outcome {
  const last = run.progress.at(-1)
  if (!last) return refuse('nothing-to-take-back')
  const stop = 'lane' in last && last.lane !== null ? run.lanes[last.lane]?.stop : null
  // A bad answer is put right by a correction and a new answer, never made to disappear.
  if (stop && stop.kind !== 'problem' && stop.kind !== 'entries-lost')
    return refuse('needs-correction', 'lane' in last ? last.lane : null)
  return [{ type: 'taken-back', cancels: last.id }]
}

function roundFor(run: Run, lane: LaneId, place: LaneStep): number {
  const state = run.lanes[lane]
  return state ? roundOf(state, place.step.id) : 1
}
