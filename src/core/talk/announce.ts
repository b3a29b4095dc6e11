/** What to say once a command has been carried out or refused, and when time alone changed what matters. */
import { laneOf } from '../procedure/course.ts'
import type { LaneId } from '../procedure/procedure.ts'
import { callAt, namesLaneInHand, type Call } from '../run/call.ts'
import type { Command } from '../run/command.ts'
import type { Decision } from '../run/decide.ts'
import type { RunEvent, StepRef } from '../run/event.ts'
import { endsBatch } from '../run/batch.ts'
import { judgeReading } from '../run/judge-answer.ts'
import { phaseOf } from '../run/phase.ts'
import { handsOf, type Run } from '../run/run.ts'
import { callWords, laneName, partName, progressNamed, stepNamed, textIn, type Told } from './call-words.ts'
import { PRIORITIES, type Line } from './line.ts'

/** Two calls with one key are the same call: nothing new has to be said. */
export function callKey(call: Call): string {
  switch (call.kind) {
    case 'caution':
    case 'step':
      return `${call.kind} ${call.lane} ${call.place.step.id}`
    case 'alarm':
    case 'late':
      return `${call.kind} ${call.lane} ${call.waiting.step} ${call.waiting.round} ${call.waiting.due}`
    case 'stopped':
      return `${call.kind} ${call.lane} ${call.stop.eventId}`
    case 'all-waiting':
      return `${call.kind} ${call.lane} ${call.until}`
    case 'stand-by':
      return `${call.kind} ${call.lane} ${call.hands}`
    case 'not-started':
    case 'paused':
    case 'finished':
    case 'abandoned':
      return call.kind
  }
}

/** `before` is the run just before the decision; `told.run` the run after it. */
export function announceDecision(before: Run, command: Command, decision: Decision, told: Told): readonly Line[] {
  if (decision.kind === 'refused') return [refusalLine(decision, told)]
  const results = decision.events.flatMap((event) => resultLines(before, event, told))
  return inOrder(results, callLines(before, command, told))
}

/** Time passed: a wait ended or a maximum was missed. Empty when the call is still the same. */
export function announceTime(previous: Call, told: Told): readonly Line[] {
  const call = callAt(told.course, told.run, told.at, told.device)
  return callKey(call) === callKey(previous) ? [] : callWords(told, call, comesBack(told, call)).lines
}

/** After these the operator wants to hear where things stand, even if that is where they stood. */
const ALWAYS_CALLED: ReadonlySet<Command['type']> = new Set([
  'choose-lane',
  'take-back',
  'pause',
  'resume',
  'hand-over',
  'join',
  'leave'
])

function callLines(before: Run, command: Command, told: Told): readonly Line[] {
  const { course, run, at, device } = told
  const [previous, call] = [callAt(course, before, at, device), callAt(course, run, at, device)]
  // Its result has just said that the lane is stopped.
  if (command.type === 'report-problem' && call.kind === 'stopped' && call.lane === command.lane) return []
  const sameStepAgain =
    previous.kind === 'step' && call.kind === 'step' && run.progress.length !== before.progress.length
  if (!ALWAYS_CALLED.has(command.type) && !sameStepAgain && callKey(previous) === callKey(call)) return []
  return callWords(told, call, comesBack(told, call)).lines
}

/** The hands are back on a lane where something has been done before, or are just being sent there. */
function comesBack({ run, device }: Told, call: Call): boolean {
  if (!namesLaneInHand(call)) return false
  const { focus, returned } = handsOf(run, device)
  return focus === call.lane ? returned : focus !== null && run.lanes[call.lane]?.last !== null
}

/** The result of a command is heard before the next call, however urgent that is; an alarm has its own way. */
function inOrder(results: readonly Line[], calls: readonly Line[]): readonly Line[] {
  const urgency = Math.min(...[...calls, ...results].map(({ priority }) => PRIORITIES.indexOf(priority)))
  const priority = PRIORITIES[Math.max(urgency, PRIORITIES.indexOf('caution'))] ?? 'answer'
  return [...results.map((line) => ({ ...line, priority })), ...calls]
}

function resultLines(before: Run, event: RunEvent, told: Told): readonly Line[] {
  const { course, manner } = told
  const { words } = manner
  switch (event.type) {
    case 'step-done':
      return waitLines(event, told)
    case 'check-answered':
      return [...goodLines(before, event, told), ...waitLines(event, told), ...roundLines(event, told)]
    case 'taken-back': {
      const cancelled = before.progress.find((known) => known.id === event.cancels)
      const named = cancelled ? progressNamed(told, cancelled) : null
      return named ? [{ priority: 'answer', text: words.takenBack(named.name, named.what), lane: named.lane }] : []
    }
    case 'resumed':
      return [{ priority: 'answer', text: words.resumed, lane: null }]
    case 'handed-over':
      return [{ priority: 'answer', text: words.handedOver(event.to), lane: null }]
    case 'joined':
      return [{ priority: 'answer', text: words.joined(event.name), lane: null }]
    case 'left': {
      const name = before.crew.find(({ device }) => device === event.hands)?.name ?? ''
      return [{ priority: 'answer', text: words.left(name), lane: null }]
    }
    case 'part-replaced': {
      const part = partName(course.procedure, event.part, manner)
      return [
        { priority: 'answer', text: words.partReplaced(laneName(course, event.lane, manner), part), lane: event.lane }
      ]
    }
    case 'problem-reported':
      return [{ priority: 'answer', text: words.problemNoted(laneName(course, event.lane, manner)), lane: event.lane }]
    default:
      return []
  }
}

/** Which rule was the strictest, and how many parts are off or on: what a careful colleague would say back. */
function goodLines(
  before: Run,
  event: Extract<RunEvent, { type: 'check-answered' }>,
  { course, manner }: Told
): readonly Line[] {
  const check = stepNamed(course, event.lane, event.step)?.check
  if (!event.good || !check) return []
  const [name, { words }] = [laneName(course, event.lane, manner), manner]
  if (check.kind === 'count' && event.answer.kind === 'count' && check.going !== undefined)
    return [remark((check.going === 'off' ? words.countedOff : words.countedOn)(name, event.answer.value), event.lane)]
  if (check.kind !== 'reading' || event.answer.kind !== 'reading') return []
  const judged = judgeReading(course, before, event, check, event.answer)
  if (judged.kind === 'met') return [remark(words.metByRule(name, judged.decided.title), event.lane)]
  if (judged.kind !== 'open' || !judged.lacks || !endsBatch(course, event)) return []
  const { rule, missing } = judged.lacks
  return [
    remark(
      words.notJudged(
        name,
        rule.title,
        missing.map((unit) => words.quantityIn(unit))
      ),
      event.lane
    )
  ]
}

function waitLines(event: StepRef & { readonly at: number }, { course, run, manner }: Told): readonly Line[] {
  const { words } = manner
  const waiting = run.lanes[event.lane]?.waiting
  if (waiting?.step !== event.step || waiting.round !== event.round || waiting.since !== event.at) return []
  const length = words.duration(waiting.due - waiting.since)
  return [remark(words.waitBegins(laneName(course, event.lane, manner), words.wait(waiting.kind), length), event.lane)]
}

/** An answer that sends the lane back says so: otherwise a good one sounds as if it had not been heard. */
function roundLines(
  event: Extract<RunEvent, { type: 'check-answered' }>,
  { course, run, manner }: Told
): readonly Line[] {
  const repeat = stepNamed(course, event.lane, event.step)?.repeat
  const lane = run.lanes[event.lane]
  const place = laneOf(course, event.lane)?.steps[lane?.position ?? -1]
  if (!repeat || lane?.stop || place?.step.id !== repeat.from) return []
  const [name, next] = [laneName(course, event.lane, manner), event.round + 1]
  const { words } = manner
  return [
    remark(
      event.good ? words.roundAtLeast(name, next, repeat.atLeast) : words.roundAtMost(name, next, repeat.atMost),
      event.lane
    )
  ]
}

function refusalLine(decision: Extract<Decision, { kind: 'refused' }>, told: Told): Line {
  const { course, manner } = told
  const { reason, lane, step, remainingMs } = decision.refusal
  const found = lane !== null && step !== null ? stepNamed(course, lane, step) : null
  const held = lane === null ? null : heldUpBy(told, lane)
  const text = manner.words.refusal(reason, lane === null ? '' : laneName(course, lane, manner), {
    left: remainingMs === null ? (held?.left ?? '') : manner.words.timeLeft(remainingMs),
    tool: held?.tool ?? '',
    others: held?.others ?? '',
    phrase: textIn(found?.confirm ?? null, manner),
    question: textIn(found?.check?.ask ?? null, manner)
  })
  return { priority: 'answer', text, lane }
}

/** What a lane that cannot go on needs: which tool, from which lanes, and how long the longest of them surely waits. */
function heldUpBy(
  { course, run, at, manner }: Told,
  lane: LaneId
): { readonly tool: string; readonly others: string; readonly left: string } | null {
  const phase = phaseOf(course, run, lane, at)
  if (phase.kind !== 'tool-in-use' && phase.kind !== 'at-barrier') return null
  const lanes = phase.kind === 'tool-in-use' ? phase.holders : phase.behind
  const tool =
    phase.kind === 'tool-in-use' ? course.procedure.tools.find(({ id }) => id === phase.tool)?.name : undefined
  const due = Math.max(0, ...lanes.map((id) => (run.lanes[id]?.waiting?.due ?? at) - at))
  return {
    tool: textIn(tool ?? null, manner),
    others: manner.words.list(
      lanes.map((id) => laneName(course, id, manner)),
      'and'
    ),
    left: due > 0 ? manner.words.timeLeft(due) : ''
  }
}

function remark(text: string, lane: string): Line {
  return { priority: 'remark', text, lane }
}
